import { type Machine, type Snapshot, stateOf } from '@lockwright/machine'
import { brokenFrom } from '../chain.js'
import type { Entry } from '../entry.js'
import type { Evidence } from './evidence.js'
import { nameOf } from './hanging-locks.js'
import { liveReadings, tellLimits } from './live-readings.js'
import type { AuditEntry } from './report.js'

/** The run, entry by entry, in plain words. */
export function storyOf(evidence: Evidence): readonly AuditEntry[] {
  const marks = marksOf(evidence)
  return evidence.reading.lines.map((line, index): AuditEntry => {
    const { entry } = line
    const seq = index + 1
    const mark = marks.get(seq) ?? ''
    if (entry === null) return { seq, at: '', by: '', title: '', what: 'This line is no entry', mark, signature: null }
    const before = evidence.replay?.snapshots[index]
    const { signature } = entry
    return {
      seq,
      at: entry.at,
      by: nameOf(entry.by, evidence.roster),
      title: titleOf(evidence.machine, before, entry),
      what: tell(entry, evidence.machine, before),
      mark,
      signature:
        signature === undefined
          ? null
          : {
              name: signature.name,
              at: signature.at,
              meaning: signature.meaning,
              good: evidence.signatures.get(seq)?.good ?? false
            }
    }
  })
}

/** Where the eye of a reader must stop, by line. */
function marksOf(evidence: Evidence): ReadonlyMap<number, string> {
  const marks = new Map<number, string>()
  for (const { entry, input } of liveReadings(evidence)) {
    marks.set(entry.seq, `LIVE: the limit is ${tellLimits(input.limits, input.unit)}`)
  }
  const broken = brokenFrom(evidence.reading)
  if (broken !== null)
    marks.set(broken, `NOTHING FROM HERE ON MAY BE RELIED ON${marks.has(broken) ? `. ${marks.get(broken)}` : ''}`)
  return marks
}

function titleOf(machine: Machine | null, before: Snapshot | undefined, entry: Entry): string {
  return machine === null || before === undefined ? entry.state : stateOf(machine, before.state).title
}

/** What happened, as one line. */
function tell(entry: Entry, machine: Machine | null, before: Snapshot | undefined): string {
  const { event } = entry
  switch (event.kind) {
    case 'opened':
      return `Opened${event.mode === 'issued' ? '' : `, ${event.mode}`}${event.onPaper === undefined ? '' : ', entered from paper'}`
    case 'done':
      return event.boxes.length === 0 ? 'Done' : `Done, ${event.boxes.length} ticked`
    case 'reading':
      return `Read ${labelOf(machine, before, event.input)}: ${event.typed}`
    case 'choice':
      return `Answered: ${answerOf(machine, before, event.answer)}`
    case 'wait-started':
      return 'Wait begun'
    case 'wait-over':
      return 'Wait over'
    case 'lock-hung':
      return `Lock ${event.lock} hung on ${event.point}`
    case 'lock-removed':
      return `Lock of ${event.owner} off ${event.point}${event.absent === undefined ? '' : ', its owner absent'}`
    case 'signed':
      return `Signed: ${event.meaning}`
    case 'late':
      return 'Not done in time'
    case 'joined':
      return `Joined the crew${locksOf(event.locks)}`
    case 'left':
      return 'Left the crew'
    case 'handed-over':
      return `Handed over to ${event.to}${locksOf(event.locks)}`
    case 'note':
      return `Note: ${event.text}`
    case 'attachment':
      return `Attached ${event.name}, SHA-256 ${event.sha256}`
    case 'deviation':
      return `Done differently: ${event.reason}`
    case 'paused':
      return `Paused: ${event.reason}`
    case 'resumed':
      if (before?.locks.length === 0) return 'Resumed; no lock hung by the record'
      return event.locksOn ? 'Resumed, every own lock seen on' : 'Resumed, not every own lock on'
    case 'proven-again':
      return `Proven again: ${event.source}${event.typed === '' ? '' : `, ${event.typed}`}`
    case 'stopped':
      return `Stopped: ${event.reason}${event.left === undefined ? '' : `. Left: ${event.left}`}`
    case 'finished':
      return 'Returned to service'
  }
}

function locksOf(locks: readonly { readonly point: string; readonly lock: string }[]): string {
  return locks.map(({ point, lock }) => `, lock ${lock} on ${point}`).join('')
}

function labelOf(machine: Machine | null, before: Snapshot | undefined, input: string): string {
  if (machine === null || before === undefined) return input
  const found = stateOf(machine, before.state).inputs.find((one) => one.id === input)
  return found?.kind === 'reading' ? found.label : input
}

function answerOf(machine: Machine | null, before: Snapshot | undefined, answer: string): string {
  if (machine === null || before === undefined) return answer
  for (const exit of stateOf(machine, before.state).exits) {
    if (exit.on === 'answer' && exit.answer === answer) return exit.label
  }
  return answer
}
