import type { Block, Branch, Choice, Content, Place, Procedure, SectionId, Step, StepId } from '@lockwright/language'
import { plainText } from '@lockwright/language'
import type { StateId } from '../ids.js'
import type { Exit, State } from '../state.js'
import type { Context } from './context.js'
import { choiceBase, curedState, finishState, gatherState, readingState } from './made-states.js'
import { branchTurn } from './meaning.js'
import { sectionsOf, stepsIn } from './sections.js'
import { noticesOf, stateOfStep } from './state.js'

/** More states than this are refused: the limit of the language page. */
export const stateLimit = 20_000

/** A stretch of machine: where it is entered, and its states in reading order. */
interface Fragment {
  readonly entry: StateId
  readonly states: readonly State[]
}

/** Where in the copies a body stands: the prefix of its ids, and the steps that the copy holds. */
interface Scope {
  readonly prefix: string
  readonly steps: ReadonlySet<StepId>
}

interface Position {
  /** Innermost copy first; the last one is the procedure itself. */
  readonly scopes: readonly [Scope, ...Scope[]]
  /** Ways out of every `within` block that is open here. */
  readonly lates: readonly Extract<Exit, { on: 'late' }>[]
}

/** Thrown inside and caught by `flowOf` alone: copies of copies can grow without bound, so they are cut short. */
class TooManyStates extends Error {}

/**
 * The states of a procedure, from the last step to the first: when a step is lowered, where it leads is known.
 * Answers null where the copies would make more than `stateLimit` states.
 */
export function flowOf(procedure: Procedure, context: Context): Fragment | null {
  let made = 0
  const count = (state: State): State => {
    made += 1
    if (made > stateLimit) throw new TooManyStates()
    return state
  }
  const sections = sectionsOf(procedure.body)

  const named = (id: StepId, { scopes }: Position): StateId => `${scopes[0].prefix}${id}` as StateId

  /** The innermost copy that holds the step is the one that is meant. */
  const target = (id: StepId, { scopes }: Position): StateId =>
    `${scopes.find(({ steps }) => steps.has(id))?.prefix ?? ''}${id}` as StateId

  const bodyOf = (blocks: readonly Block[], next: StateId, position: Position): Fragment => {
    let entry = next
    const parts: (readonly State[])[] = []
    for (let index = blocks.length - 1; index >= 0; index -= 1) {
      const block = blocks[index]
      if (block === undefined) continue
      // At the end of the file closing prose belongs to the finish, elsewhere it is read behind the last step.
      if (block.kind === 'closing' && blocks === procedure.body) continue
      const fragment = blockOf(block, entry, position)
      parts.push(fragment.states)
      entry = fragment.entry
    }
    return { entry, states: parts.reverse().flat() }
  }

  const branchOf = (branch: Branch, next: StateId, position: Position): Fragment => bodyOf(branch.body, next, position)

  const blockOf = (block: Block, next: StateId, position: Position): Fragment => {
    switch (block.kind) {
      case 'heading':
        return { entry: next, states: [] }
      case 'closing': {
        const id = `${position.scopes[0].prefix}${block.place.start.line}.reading` as StateId
        return { entry: id, states: [count(readingState(id, block, [{ on: 'done', to: next }, ...position.lates]))] }
      }
      case 'gather': {
        // Tools are gathered once, not again with the locks on.
        if (position.scopes.length > 1) return { entry: next, states: [] }
        const id = `${position.scopes[0].prefix}${block.section ?? 'start'}.gather` as StateId
        return { entry: id, states: [count(gatherState(id, block, procedure.items, next))] }
      }
      case 'by':
      case 'only':
      case 'ask':
      case 'within':
      case 'back':
      case 'repeat':
      case 'remedies':
        return withNotices(block, choiceOf(block, next, position), position)
      default:
        return stepOf(block, next, position)
    }
  }

  /** Copies of a step differ in their ids and exits alone, so each step is lowered once. */
  const lowered = new Map<Step, State>()
  const stateFor = (step: Step, id: StateId, exits: readonly Exit[]): State => {
    const known = lowered.get(step)
    const state = known === undefined ? stateOfStep(step, id, exits, context) : { ...known, id, exits }
    if (known === undefined) lowered.set(step, state)
    return count(state)
  }

  const stepOf = (step: Step, next: StateId, position: Position): Fragment => {
    const id = named(step.id, position)
    const make = (exits: readonly Exit[]): State => stateFor(step, id, [...exits, ...position.lates])
    switch (step.kind) {
      case 'stop':
      case 'finish':
        return { entry: id, states: [stateFor(step, id, [])] }
      case 'identify': {
        const axis = context.head.axes.find((candidate) => candidate.id === step.axis)
        const values = axis?.values ?? []
        return { entry: id, states: [make(values.map((value) => ({ on: 'identified', value: value.id, to: next })))] }
      }
      case 'measure': {
        const limited = step.min !== undefined || step.max !== undefined
        const again: readonly Exit[] = limited ? [{ on: 'again', to: id }] : []
        const inside: Exit = { on: 'inside', to: next }
        if (step.outside === undefined) return { entry: id, states: [make([inside, ...again])] }
        // Without limits a reading is never outside: the branch stays in the machine, for the proof to say so.
        const outside = branchOf(step.outside, next, position)
        const leave: readonly Exit[] = limited ? [{ on: 'outside', says: step.outside.says, to: outside.entry }] : []
        return { entry: id, states: [make([inside, ...again, ...leave]), ...outside.states] }
      }
      default:
        return { entry: id, states: [make([{ on: 'done', to: next }])] }
    }
  }

  const choiceOf = (choice: Choice, next: StateId, position: Position): Fragment => {
    const id = named(choice.id, position)
    const base = choiceBase(choice, id)
    switch (choice.kind) {
      case 'by': {
        const whens = choice.whens.map((when) => ({ when, fragment: branchOf(when, next, position) }))
        const exits = whens.flatMap(({ when, fragment }) =>
          when.values.map((value): Exit => ({ on: 'value', value, says: when.says, to: fragment.entry }))
        )
        const state = count({ ...base, kind: 'branch', axis: choice.axis, turns: [branchTurn(choice.axis)], exits })
        return { entry: id, states: [state, ...whens.flatMap(({ fragment }) => fragment.states)] }
      }
      case 'only': {
        const inside = branchOf(choice.branch, next, position)
        const axis = context.head.axes.find((candidate) => candidate.id === choice.axis)
        const exits = (axis?.values ?? []).map(({ id: value }): Exit => {
          const taken = choice.values.includes(value)
          return { on: 'value', value, says: taken ? choice.branch.says : [], to: taken ? inside.entry : next }
        })
        const state = count({ ...base, kind: 'branch', axis: choice.axis, turns: [branchTurn(choice.axis)], exits })
        return { entry: id, states: [state, ...inside.states] }
      }
      case 'ask': {
        const answers = choice.answers.map((answer) => ({ answer, fragment: branchOf(answer, next, position) }))
        const exits = answers.map(
          ({ answer, fragment }, index): Exit => ({
            on: 'answer',
            answer: `answer-${index + 1}`,
            label: plainText(answer.label),
            says: answer.says,
            to: fragment.entry
          })
        )
        const question = plainText(choice.question)
        const state = count({
          ...base,
          kind: 'ask',
          question,
          title: question,
          role: choice.role ?? null,
          notices: noticesOf(choice.notices),
          exits: [...exits, ...position.lates]
        })
        return { entry: id, states: [state, ...answers.flatMap(({ fragment }) => fragment.states)] }
      }
      case 'within': {
        const late = branchOf(choice.late, next, position)
        const exit: Extract<Exit, { on: 'late' }> = { on: 'late', within: id, says: choice.late.says, to: late.entry }
        const body = branchOf(choice.branch, next, { ...position, lates: [...position.lates, exit] })
        const state = count({
          ...base,
          intro: [...base.intro, ...choice.branch.says],
          kind: 'timer',
          seconds: choice.seconds,
          exits: [{ on: 'done', to: body.entry }]
        })
        return { entry: id, states: [state, ...body.states, ...late.states] }
      }
      case 'back': {
        const to = target(choice.to, position)
        return { entry: id, states: [count({ ...base, kind: 'back', to, exits: [{ on: 'done', to }] })] }
      }
      case 'repeat':
        return withIntro(copyOf(choice.of, `${id}/`, next, position), choice.intro, id, choice.place, position)
      case 'remedies':
        return remediesOf(choice, next, position)
    }
  }

  /** The whole section again, under ids of its own. */
  const copyOf = (section: SectionId, prefix: string, next: StateId, position: Position): Fragment => {
    const blocks = sections.get(section) ?? []
    const scope: Scope = { prefix, steps: new Set(stepsIn(blocks)) }
    return bodyOf(blocks, next, { ...position, scopes: [scope, ...position.scopes] })
  }

  const remediesOf = (choice: Extract<Choice, { kind: 'remedies' }>, next: StateId, position: Position): Fragment => {
    const id = named(choice.id, position)
    const { place, says } = choice.otherwise
    const otherwise = withIntro(branchOf(choice.otherwise, next, position), says, `${id}.otherwise`, place, position)
    let following = otherwise
    for (let index = choice.remedies.length - 1; index >= 0; index -= 1) {
      const remedy = choice.remedies[index]
      if (remedy === undefined) continue
      const number = index + 1
      const relock = copyOf(choice.relock, `${id}.${number}.relock/`, following.entry, position)
      const cured = count(curedState(choice, `${id}.${number}.cured` as StateId, next, relock.entry, position.lates))
      const retest = copyOf(choice.retest, `${id}.${number}.retest/`, cured.id, position)
      const body = branchOf(remedy, retest.entry, position)
      const label: Content = {
        kind: 'paragraph',
        runs: [{ kind: 'strong', text: `Remedy ${number} of ${choice.remedies.length}: ${plainText(remedy.label)}` }]
      }
      const tried = { ...body, states: [...withMinutes(body, remedy.minutes), ...retest.states] }
      const told = withIntro(tried, [label, ...remedy.says], `${id}.${number}`, remedy.place, position)
      following = { entry: told.entry, states: [...told.states, cured, ...relock.states, ...following.states] }
    }
    return withIntro(following, choice.intro, id, choice.place, position)
  }

  /** Prose that goes before whatever the fragment shows first; of a fragment without a state it is read by itself. */
  const withIntro = (
    fragment: Fragment,
    intro: readonly Content[],
    id: string,
    place: Place,
    position: Position
  ): Fragment => {
    if (intro.length === 0) return fragment
    if (!fragment.states.some((state) => state.id === fragment.entry)) {
      const reading = `${id}.reading` as StateId
      const exits: readonly Exit[] = [{ on: 'done', to: fragment.entry }, ...position.lates]
      return {
        entry: reading,
        states: [count(readingState(reading, { place, content: intro }, exits)), ...fragment.states]
      }
    }
    return {
      ...fragment,
      states: fragment.states.map((state) =>
        state.id === fragment.entry ? { ...state, intro: [...intro, ...state.intro] } : state
      )
    }
  }

  /** Notices before a choice that passes of itself are acknowledged in a state of their own. */
  const withNotices = (choice: Choice, fragment: Fragment, position: Position): Fragment => {
    if (choice.kind === 'ask' || choice.notices.length === 0) return fragment
    const id = `${named(choice.id, position)}.notice` as StateId
    const state: State = {
      ...choiceBase(choice, id),
      kind: 'notice',
      title: 'Read before going on',
      notices: noticesOf(choice.notices),
      intro: [],
      exits: [{ on: 'done', to: fragment.entry }, ...position.lates]
    }
    return { entry: id, states: [count(state), ...fragment.states] }
  }

  const finish: State = finishState(procedure, context)
  try {
    const whole: Position = { scopes: [{ prefix: '', steps: new Set() }], lates: [] }
    const fragment = bodyOf(procedure.body, finish.id, whole)
    return { entry: fragment.entry, states: [...fragment.states, count(finish)] }
  } catch (error) {
    if (error instanceof TooManyStates) return null
    throw error
  }
}

/** A remedy's usual duration stands at its first step, unless its steps have their own. */
function withMinutes({ entry, states }: Fragment, minutes: number | undefined): readonly State[] {
  if (minutes === undefined || states.some((state) => state.minutes !== null)) return states
  return states.map((state) => (state.id === entry ? { ...state, minutes } : state))
}
