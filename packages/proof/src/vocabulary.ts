import type { AxisId, PointId, RestraintId, SourceId, SourceKind } from '@lockwright/language'
import { type Condition, type Machine, type State, statuses } from '@lockwright/machine'
import { existsIn, pointsFeeding, restraintsHolding, sourceOf } from './arrangement.js'
import type { Failure } from './obligation.js'
import type { Fact } from './undone.js'

/** `a, b and c`; `last` is the word before the last part. */
export function joined(parts: readonly string[], last: 'and' | 'or' = 'and'): string {
  if (parts.length < 2) return parts.join('')
  return `${parts.slice(0, -1).join(', ')} ${last} ${parts[parts.length - 1]}`
}

/** Ids as they are shown everywhere: in backticks, as a list. */
export function quoted(ids: readonly string[], last: 'and' | 'or' = 'and'): string {
  return joined(
    ids.map((id) => `\`${id}\``),
    last
  )
}

/** `line 12`, `lines 12, 15 and 20`. */
export function atLines(lines: readonly number[]): string {
  return `${lines.length === 1 ? 'line' : 'lines'} ${joined(lines.map(String))}`
}

/** What to say of steps that would have done it, but not here; with a space before, or nothing. */
export function elsewhere(lines: readonly number[], state: State): string {
  if (lines.length === 0) return ''
  const late = lines.every((line) => line > state.span.line)
  const one = lines.length === 1
  const those = `${one ? 'The one' : 'Those'} at ${atLines(lines)}`
  if (late) return ` ${those} ${one ? 'comes' : 'come'} too late.`
  return ` ${those} ${one ? 'is' : 'are'} passed by on some way, or undone since.`
}

const factWords: Readonly<Record<Fact, string>> = {
  told: 'the telling of people',
  stopped: 'the shutdown',
  tried: 'the try of the start control',
  inspected: 'the inspection',
  clear: 'the clearing of people'
}

/** Which steps on the way shown undid facts that were true before, as a sentence with a space before; or nothing. */
export function undoneSentence({ undone }: Failure, facts: readonly Fact[]): string {
  const steps = unique(facts.flatMap((fact) => undone[fact] ?? []))
  const clauses = steps.map((step) => {
    const lost = facts.filter((fact) => undone[fact] === step).map((fact) => factWords[fact])
    return `${stepAt(step)} undid ${joined(lost)}`
  })
  return clauses.length === 0 ? '' : ` On the way shown ${joined(clauses)}.`
}

/** `the hands-on work on line 43`, `the `remove` on line 12`. */
function stepAt({ kind, span }: State): string {
  return `${kind === 'work' ? 'the hands-on work' : `the \`${kind}\``} on line ${span.line}`
}

/** ` (line 43)` where a step on the way shown undid the fact; else nothing. */
export function undoneLine({ undone }: Failure, fact: Fact): string {
  const step = undone[fact]
  return step === undefined ? '' : ` (line ${step.span.line})`
}

/** What to do with a numbered list that was not meant as work; with a space before, or nothing. */
export function orHyphens({ kind, body, span }: State): string {
  const [only, more] = body
  return kind === 'work' && only?.kind === 'list' && only.ordered && more === undefined
    ? ` If the numbered list on line ${span.line} is no hands-on work, write it with hyphens.`
    : ''
}

/** The value of a directive's attribute that names ids: quoted where there are several. */
export function naming(ids: readonly string[]): string {
  return ids.length === 1 ? `${ids[0]}` : `"${ids.join(' ')}"`
}

/** Where a step has to be added so that it comes first: `before line 96`. */
export function before(state: State): string {
  return state.kind === 'finish' && state.span.line === state.span.endLine && state.span.column === state.span.endColumn
    ? 'at the end of the file'
    : `before line ${state.span.line}`
}

/** `is` for one thing, `are` for several. */
export function isOrAre(things: readonly unknown[]): 'is' | 'are' {
  return things.length === 1 ? 'is' : 'are'
}

/** `Q1` is unlocked; `Q1` and `V1` are switched on: what a step of this kind does to the points. */
export function moved(points: readonly string[], kind: State['kind']): string {
  return `${quoted(points)} ${isOrAre(points)} ${kind === 'energize' ? 'switched on' : 'unlocked'}`
}

/** What a source of this kind may still do while energy is in it, as in `the drum may still turn`. */
export function mayStill(kind: SourceKind): string {
  switch (kind) {
    case 'electrical':
      return 'be live'
    case 'capacitor':
    case 'battery':
      return 'hold its charge'
    case 'magnet':
      return 'carry its current'
    case 'rotating':
      return 'turn'
    case 'gravity':
      return 'come down'
    case 'spring':
      return 'be under tension'
    case 'gas':
    case 'liquid':
      return 'be under pressure'
    case 'thermal':
      return 'be hot'
    case 'other':
      return 'hold its energy'
  }
}

/** Ids of one sort that are at fault, each once. */
export function faultySources(failure: Failure): readonly SourceId[] {
  return unique(failure.faults.flatMap(({ about }) => (about.kind === 'source' ? [about.id] : [])))
}

export function faultyPoints(failure: Failure): readonly PointId[] {
  return unique(failure.faults.flatMap(({ about }) => (about.kind === 'point' ? [about.id] : [])))
}

export function faultyRestraints(failure: Failure): readonly RestraintId[] {
  return unique(failure.faults.flatMap(({ about }) => (about.kind === 'restraint' ? [about.id] : [])))
}

export function faultyAxes(failure: Failure): readonly AxisId[] {
  return unique(failure.faults.flatMap(({ about }) => (about.kind === 'axis' ? [about.id] : [])))
}

/** Whether a plain condition of the ledger is among those that were not met, at any depth. */
export function misses(failure: Failure, is: Condition['is']): boolean {
  return failure.faults.some(({ condition }) => parts(condition).some((part) => part.is === is))
}

/** The plain conditions that a condition is made of. */
export function parts(condition: Condition): readonly Condition[] {
  return condition.is === 'all' || condition.is === 'any' ? condition.of.flatMap(parts) : [condition]
}

/** Why the sources do not count as cut off on the way shown, as one clause. */
export function whyFed(failure: Failure, ids: readonly SourceId[], needed: 'locked' | 'off'): string {
  const { machine } = failure
  const sources = ids.map((id) => sourceOf(machine, id))
  const points = openPoints(failure, unique(sources.flatMap((source) => source.at)), needed)
  const feeders = unique(sources.flatMap((source) => source.fedBy)).filter((feeder) => !ids.includes(feeder))
  const live = feeders.filter((feeder) => mayFeed(failure, feeder, needed))
  const clauses: string[] = []
  if (points.length > 0) clauses.push(pointsNot(points, needed))
  if (live.length > 0) {
    const fed = quoted(sources.filter(({ fedBy }) => fedBy.some((id) => live.includes(id))).map(({ id }) => id))
    clauses.push(`${quoted(live)}, which ${live.length === 1 ? 'feeds' : 'feed'} ${fed}, ${isOrAre(live)} not dead`)
  }
  return clauses.length > 0 ? joined(clauses) : 'on some way there a device that feeds it is not locked'
}

/** Those of the points that exist and are not as needed on the way shown. */
export function openPoints(failure: Failure, points: readonly PointId[], needed: 'locked' | 'off'): readonly PointId[] {
  const { machine, ledger } = failure
  return points.filter((id) => {
    const point = machine.points.find((candidate) => candidate.id === id)
    if (point === undefined || !existsIn(ledger, point.only)) return false
    return needed === 'locked' ? ledger.points[id] !== 'locked' : ledger.points[id] === 'on'
  })
}

/** Whether the feeder is not dead on the way shown; before locks are asked for, whether it is on or holds energy. */
function mayFeed({ machine, ledger }: Failure, id: SourceId, needed: 'locked' | 'off'): boolean {
  const status = statuses(machine, ledger).find(({ source }) => source === id)
  if (status === undefined || !status.present) return false
  if (needed === 'locked') return !status.dead
  const on = sourceOf(machine, id).at.some((point) => ledger.points[point] === 'on')
  return on || (status.store === 'held' && !status.restrained)
}

/** `Q1` is not locked; `Q1` and `Q2` are not all locked. */
export function pointsNot(points: readonly PointId[], needed: 'locked' | 'off'): string {
  const state = needed === 'locked' ? 'locked' : 'in the off position'
  return points.length === 1 ? `\`${points[0]}\` is not ${state}` : `${quoted(points)} are not all ${state}`
}

/** Why the source may still hold energy although it is cut off, as one clause. */
export function whyHeld(machine: Machine, id: SourceId): string {
  const source = sourceOf(machine, id)
  const holders = restraintsHolding(machine, id).map((restraint) => restraint.id)
  const unheld = holders.length === 0 ? 'no restraint is declared that holds it' : `${quoted(holders, 'or')} is not on`
  switch (source.store) {
    case 'always-held':
      return `it cannot be let out, and ${unheld}`
    case 'can-be-let-out':
      return source.unfed === null
        ? `it was not relieved since something last fed it, and ${unheld}`
        : `it was not relieved since the machine last ran, and ${unheld}`
    case 'none':
      return `it may still be fed, or ${unheld}`
  }
}

/** Every point that the sources need locked, own and feeders', each once. */
export function pointsNeeded(machine: Machine, ids: readonly SourceId[]): readonly PointId[] {
  return unique(ids.flatMap((id) => pointsFeeding(machine, id)))
}

export function unique<Item>(items: readonly Item[]): readonly Item[] {
  return [...new Set(items)]
}
