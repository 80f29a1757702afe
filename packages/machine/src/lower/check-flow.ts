import type { Diagnostic, FrontMatter, Place, Procedure, Source } from '@lockwright/language'
import type { StateId } from '../ids.js'
import type { State } from '../state.js'

function fault(id: string, place: Place, what: string, danger: string, mend: string): Diagnostic {
  return { id, severity: 'error', place, what, danger, mend, related: [], path: [] }
}

function placeOf(file: string, { span }: State): Place {
  return {
    file,
    start: { line: span.line, column: span.column, offset: 0 },
    end: { line: span.endLine, column: span.endColumn, offset: 0 }
  }
}

/** A `back` may name only a step that lies on every path to it: taken out, the `back` can no longer be reached. */
export function checkBacks(file: string, start: StateId, states: readonly State[]): readonly Diagnostic[] {
  const byId = new Map(states.map((state) => [state.id, state]))
  const seen = new Set<string>()
  return states.flatMap((state) => {
    if (state.kind !== 'back' || !reachesWithout(byId, start, state.id, state.to)) return []
    const line = `${state.span.line}:${state.span.column}`
    if (seen.has(line)) return []
    seen.add(line)
    return [
      fault(
        'back-off-path',
        placeOf(file, state),
        `\`back\` goes to \`${state.to}\`, which does not lie on every way that leads here.`,
        'Someone could be sent to a step that they never passed, with the machine in a state that the step does not expect.',
        'Go back to a step before the choice that this branch belongs to, or use `repeat` for a whole section.'
      )
    ]
  })
}

function reachesWithout(byId: ReadonlyMap<StateId, State>, start: StateId, goal: StateId, without: StateId): boolean {
  const seen = new Set<StateId>([without])
  const queue = [start]
  for (let next = queue.pop(); next !== undefined; next = queue.pop()) {
    if (seen.has(next)) continue
    seen.add(next)
    if (next === goal) return true
    for (const exit of byId.get(next)?.exits ?? []) queue.push(exit.to)
  }
  return false
}

/**
 * On every generation on which a source exists, something that cuts it off or feeds it must exist too.
 * Without this a source whose only device belongs to another generation would count as isolated.
 */
export function checkIsolation({ head }: Procedure): readonly Diagnostic[] {
  return head.sources.flatMap((source) => {
    if (source.at.length + source.fedBy.length === 0) return []
    const bare = generations(head, source).find((generation) => !hasFeed(head, source, generation))
    if (bare === undefined) return []
    const where = [...bare].map(([axis, value]) => `${axis} ${value}`).join(', ')
    return [
      fault(
        'nothing-isolates',
        source.place,
        `On ${where} nothing cuts \`${source.id}\` off: every device and feeder that it names belongs to other generations.`,
        'The lockout would count as complete on that generation while the source is still on.',
        `Name the device of that generation in \`at\`, or say with \`only\` that \`${source.id}\` does not exist there.`
      )
    ]
  })
}

type Generation = ReadonlyMap<string, string>

/** Every combination of generations, on the axes that matter to the source, on which the source exists. */
function generations(head: FrontMatter, source: Source): readonly Generation[] {
  const feeds = [
    ...head.points.filter(({ id }) => source.at.includes(id)),
    ...head.sources.filter(({ id }) => source.fedBy.includes(id))
  ]
  const axes = new Set([source, ...feeds].flatMap(({ only }) => only.map(({ axis }) => axis)))
  let combined: readonly Generation[] = [new Map()]
  for (const axis of head.axes) {
    if (!axes.has(axis.id)) continue
    combined = combined.flatMap((generation) => axis.values.map(({ id }) => new Map([...generation, [axis.id, id]])))
  }
  return combined.filter((generation) => exists(source, generation))
}

function exists({ only }: Pick<Source, 'only'>, generation: Generation): boolean {
  return only.every(({ axis, values }) => values.some((value) => value === generation.get(axis)))
}

function hasFeed(head: FrontMatter, source: Source, generation: Generation): boolean {
  return (
    head.points.some((point) => source.at.includes(point.id) && exists(point, generation)) ||
    head.sources.some((feeder) => source.fedBy.includes(feeder.id) && exists(feeder, generation))
  )
}
