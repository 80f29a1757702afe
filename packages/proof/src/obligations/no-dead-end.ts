import type { State } from '@lockwright/machine'
import type { Declared, Finding, Obligation, ReachableGraph } from '../obligation.js'

export const noDeadEnd: Obligation = {
  id: 'no-dead-end',
  statement: 'from wherever the procedure can lead, an end can be reached',
  sources: ['common practice'],
  danger: 'Whoever gets there goes in circles with the machine open, and in the end makes up a way out.',
  waivable: false,
  check: { kind: 'graph', find }
}

function find(graph: ReachableGraph): Declared {
  const findings = stretches(graph).map(findingFor)
  return { arises: graph.machine.states.length > 0, findings }
}

/** Only a step that goes back can close a loop: the loop is mended there, at the last such step. */
function findingFor(stretch: readonly State[]): Finding {
  const backs = stretch.filter((state) => state.kind === 'back')
  const [last, ...others] = backs.length > 0 ? backs.toReversed() : stretch
  if (last === undefined) throw new Error('a stretch of stuck states has no state')
  return {
    span: last.span,
    what: 'This step closes a loop, and no way leads out of the loop to a finish or a stop.',
    mend: 'Give the loop a way out: a `::::ask[...]` ... `::::` with an answer that goes on, or a `::stop[reason]`.',
    related:
      backs.length < 2
        ? []
        : others.reverse().map(({ span }) => ({ span, note: 'This step belongs to the same loop.' }))
  }
}

/** The stuck states, those that hang together in one list, each list in reading order. */
function stretches({ machine, stuck }: ReachableGraph): readonly (readonly State[])[] {
  const indexOf = new Map(machine.states.map((state, index) => [state.id, index]))
  const neighbours = new Map<number, Set<number>>(stuck.map((index) => [index, new Set<number>()]))
  for (const index of stuck) {
    for (const exit of machine.states[index]?.exits ?? []) {
      const to = indexOf.get(exit.to)
      if (to === undefined || !neighbours.has(to)) continue
      neighbours.get(index)?.add(to)
      neighbours.get(to)?.add(index)
    }
  }
  const found: State[][] = []
  const open = new Set(stuck)
  for (const index of stuck) {
    if (!open.has(index)) continue
    const stretch = new Set([index])
    for (const one of stretch) for (const other of neighbours.get(one) ?? []) stretch.add(other)
    for (const one of stretch) open.delete(one)
    found.push(machine.states.filter((_, one) => stretch.has(one)))
  }
  return found
}
