import type { AxisValueId } from '@lockwright/language'
import type { Exit, Machine, State, StateId } from '@lockwright/machine'
import type { Declared, Finding, Obligation } from '../obligation.js'
import { quoted } from '../vocabulary.js'

export const branchesCover: Obligation = {
  id: 'branches-cover',
  statement: 'every generation and every answer has its branch, once',
  sources: ['common practice'],
  danger: 'Whoever meets the case that is not written down is left alone with an opened machine.',
  waivable: false,
  check: { kind: 'declared', find }
}

type BranchState = Extract<State, { kind: 'branch' }>

function find(machine: Machine): Declared {
  // Copies of a section are the same text: one finding for all of them.
  const seen = new Set<string>()
  const choices = machine.states.filter((state) => state.kind === 'branch' || state.kind === 'ask')
  const written = choices.filter((state) => !seen.has(state.step) && seen.add(state.step))
  return {
    arises: choices.length > 0,
    findings: written.flatMap((state) => (state.kind === 'branch' ? byFaults(machine, state) : askFaults(state)))
  }
}

function byFaults(machine: Machine, state: BranchState): readonly Finding[] {
  const values = machine.axes.find((axis) => axis.id === state.axis)?.values ?? []
  const ways = (value: AxisValueId): readonly StateId[] =>
    state.exits.flatMap((exit) => (exit.on === 'value' && exit.value === value ? [exit.to] : []))
  const missing = values.map((value) => value.id).filter((value) => ways(value).length === 0)
  const findings: Finding[] = []
  if (missing.length > 0) {
    findings.push({
      span: state.span,
      what: `The way parts by \`${state.axis}\`, and there is no branch for ${quoted(missing)}.`,
      mend: `Add \`:::when{is=${missing[0]}}\` and its closing \`:::\` inside this \`by\`${missing.length > 1 ? ', and one for each of the others' : ''}.`,
      related: []
    })
  }
  for (const { id } of values) {
    const [first, second] = ways(id)
    if (first === undefined || second === undefined) continue
    findings.push({
      span: state.span,
      what: `The way parts by \`${state.axis}\`, and two branches are for \`${id}\`.`,
      mend: `Keep one \`when\` for \`${id}\` and put all its steps there.`,
      related: [first, second].flatMap((to, index) => leadsTo(machine, to, index === 0 ? 'first' : 'second'))
    })
  }
  return findings
}

function leadsTo(machine: Machine, to: StateId, which: 'first' | 'second'): Finding['related'] {
  const target = machine.states.find((state) => state.id === to)
  return target === undefined ? [] : [{ span: target.span, note: `The ${which} of the two goes on here.` }]
}

function askFaults(state: State): readonly Finding[] {
  const answers = state.exits.filter((exit): exit is Extract<Exit, { on: 'answer' }> => exit.on === 'answer')
  const findings: Finding[] = []
  if (answers.length < 2) {
    const count = answers.length === 0 ? 'no answer' : 'a single answer'
    findings.push({
      span: state.span,
      what: `The question has ${count}, so that it decides nothing.`,
      mend: 'Add an `:::answer[...]` and its closing `:::` for everything that can be seen, one of them for all the rest.',
      related: []
    })
  }
  const plain = (label: string): string => label.trim().replace(/\s+/gu, ' ').toLowerCase()
  const doubled = answers.filter(
    (answer, index) => answers.findIndex((one) => plain(one.label) === plain(answer.label)) < index
  )
  for (const label of new Set(doubled.map((answer) => plain(answer.label)))) {
    findings.push({
      span: state.span,
      what: `Two answers to the question read the same: "${doubled.find((one) => plain(one.label) === label)?.label.trim()}".`,
      mend: 'Word each answer so that only one of them fits what is seen.',
      related: []
    })
  }
  return findings
}
