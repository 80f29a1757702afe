import { type Snapshot, stateOf } from '@lockwright/machine'
import type { Entry } from '../entry.js'
import type { Evidence } from './evidence.js'
import { leastSeconds } from './least-seconds.js'
import { removedPastShift } from './past-shift.js'
import { count, type Found } from './verdict.js'
import { endedWaits } from './waits.js'

/** Two clocks of one computer may differ by this much and still agree, in milliseconds. */
const slack = 2000

/** Whether waits were waited out, clocks never ran back, and no step was faster than a person can do it. */
export function timely(evidence: Evidence): { readonly found: readonly Found[]; readonly checked: readonly string[] } {
  const { entries } = evidence
  const waits = entries.filter((entry) => entry.event.kind === 'wait-over').length
  const checked = [
    `Both clocks over ${count(entries.length, 'entry', 'entries')} and ${count(entries.at(-1)?.session ?? 0, 'session')}`,
    count(waits, 'wait')
  ]
  const found = [...clocks(entries)]
  const onPaper = evidence.summary?.onPaper ?? false
  if (evidence.replay === null || evidence.machine === null) return { found: [...found, noMachine], checked }
  const taken = entries.slice(0, evidence.replay.snapshots.length - 1)
  if (taken.length < evidence.reading.lines.length) found.push(notAll(taken.length + 1))
  found.push(...waitsFound(evidence, onPaper))
  const shifts = removedPastShift(evidence)
  found.push(...shifts.found)
  checked.push(...shifts.checked)
  if (onPaper) checked.push('Times are those written on the sheet, to the minute: how fast a step was is not judged')
  else {
    const visits = visitsOf(evidence, taken)
    checked.push(`${count(visits.length, 'step')} against the least time that a person needs`)
    found.push(...visits.flatMap(tooFast))
  }
  return { found, checked }
}

function clocks(entries: readonly Entry[]): readonly Found[] {
  return entries.flatMap((entry, index): readonly Found[] => {
    const before = entries[index - 1]
    if (before === undefined) return []
    const wall = millisecondsBetween(before.at, entry.at)
    const steady = entry.elapsed - before.elapsed
    if (steady < 0 || entry.session < before.session) return [ranBack(entry.seq, 'The steady clock')]
    if (wall < -slack || millisecondsBetween(enteredOf(before), enteredOf(entry)) < -slack) {
      return [ranBack(entry.seq, 'The wall clock')]
    }
    if (Date.parse(entry.at) > Date.parse(enteredOf(entry))) return [writtenAhead(entry.seq)]
    const behind = steady - millisecondsBetween(enteredOf(before), enteredOf(entry))
    return entry.session === before.session && behind > slack ? [setBack(entry.seq, behind)] : []
  })
}

const enteredOf = (entry: Entry): string => entry.entered?.at ?? entry.at

function waitsFound(evidence: Evidence, onPaper: boolean): readonly Found[] {
  return endedWaits(evidence).flatMap(({ start, end, needed }): readonly Found[] => {
    const wall = millisecondsBetween(start.at, end.at)
    const steady = end.elapsed - start.elapsed
    if (wall < needed * 1000) return [waitShort(end.seq, needed, wall)]
    return !onPaper && steady < needed * 1000 - slack ? [waitDoubtful(end.seq, needed, steady)] : []
  })
}

interface Visit {
  readonly seq: number
  readonly title: string
  readonly took: number
  readonly least: number
}

/** Each stay in a state, from its arrival to the entry that left it. */
function visitsOf(evidence: Evidence, taken: readonly Entry[]): readonly Visit[] {
  const { machine, replay } = evidence
  if (machine === null || replay === null) return []
  const visits: Visit[] = []
  let arrived = taken[0]
  for (const [index, entry] of taken.entries()) {
    const before = replay.snapshots[index] as Snapshot
    const after = replay.snapshots[index + 1] as Snapshot
    const leaves = after.state !== before.state || after.status === 'finished'
    if (!leaves || arrived === undefined) continue
    const state = stateOf(machine, before.state)
    const sameSession = arrived.session === entry.session
    const took = sameSession ? entry.elapsed - arrived.elapsed : millisecondsBetween(arrived.at, entry.at)
    if (entry.event.kind !== 'stopped' && entry.event.kind !== 'late') {
      visits.push({ seq: entry.seq, title: state.title, took, least: leastSeconds(state) * 1000 })
    }
    arrived = entry
  }
  return visits
}

function tooFast(visit: Visit): readonly Found[] {
  if (visit.took >= visit.least) return []
  return [
    {
      id: 'too-fast',
      weight: 'fault',
      seq: visit.seq,
      what: `"${visit.title}" was answered after ${seconds(visit.took)} s; a person needs ${seconds(visit.least)} s at the least.`,
      danger: 'It may have been ticked without being done.',
      mend: 'Ask the person named how it was done.'
    }
  ]
}

function millisecondsBetween(from: string, to: string): number {
  return Date.parse(to) - Date.parse(from)
}

const seconds = (milliseconds: number): string => (milliseconds / 1000).toFixed(milliseconds % 1000 === 0 ? 0 : 1)

function ranBack(seq: number, clock: string): Found {
  return {
    id: 'clock-ran-back',
    weight: 'fault',
    seq,
    what: `${clock} ran back before this entry.`,
    danger: 'The order of things, and how long a wait took, cannot be told from it.',
    mend: 'Find out who set the clock and why.'
  }
}

function writtenAhead(seq: number): Found {
  return {
    id: 'written-ahead',
    weight: 'fault',
    seq,
    what: 'By the sheet this happened later than it was typed in.',
    danger: 'The sheet may have been filled in before the work was done.',
    mend: 'Ask who wrote the sheet, and who typed it in.'
  }
}

function setBack(seq: number, behind: number): Found {
  return {
    id: 'clock-set-back',
    weight: 'fault',
    seq,
    what: `The wall clock fell ${seconds(behind)} s behind the steady one before this entry.`,
    danger: 'Times from here on may be too early, so a qualification or a key may have ended by then.',
    mend: 'Find out who set the clock and why.'
  }
}

function waitShort(seq: number, needed: number, waited: number): Found {
  return {
    id: 'wait-short',
    weight: 'fault',
    seq,
    what: `A wait of ${needed} s was ended after ${seconds(waited)} s.`,
    danger: 'Stored energy may not have been gone.',
    mend: 'Have the work that followed looked at.'
  }
}

function waitDoubtful(seq: number, needed: number, steady: number): Found {
  return {
    id: 'wait-doubtful',
    weight: 'doubt',
    seq,
    what: `A wait of ${needed} s took ${seconds(steady)} s by the clock that never runs back, though the wall clock says more.`,
    danger: 'The wall clock may have been set forward to end the wait early.',
    mend: 'If the computer slept meanwhile, that is why; else find out who set the clock.'
  }
}

const noMachine: Found = {
  id: 'no-machine',
  weight: 'doubt',
  seq: null,
  what: 'Without the machine it cannot be told how long each wait had to be.',
  danger: 'Stored energy may not have been gone.',
  mend: 'Put the machine of that digest back into `issued/` or `drafts/`.'
}

const notAll = (seq: number): Found => ({
  id: 'not-all-looked-at',
  weight: 'doubt',
  seq,
  what: `From entry ${seq} on the run could not be replayed, so waits and steps were not looked at.`,
  danger: 'What was done from there on cannot be told.',
  mend: 'See what stands under `followed`.'
})
