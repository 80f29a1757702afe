import { type Machine, stateOf } from '@lockwright/machine'
import type { Evidence } from './evidence.js'
import { hangingLocks, tellLock } from './hanging-locks.js'
import { issuedLater } from './issued-later.js'
import { count, type Found } from './verdict.js'

/** Whether the run keeps to its machine: the journal, replayed through `advance`, reaches the end that it claims. */
export function followed(evidence: Evidence): {
  readonly found: readonly Found[]
  readonly checked: readonly string[]
} {
  const { machine, replay } = evidence
  if (machine === null || replay === null) return { found: [noMachine], checked: [] }
  const taken = replay.snapshots.length - 1
  const checked = [
    `${count(taken, 'entry', 'entries')} of ${evidence.reading.lines.length} replayed over the machine; the run then stands at ${titleOf(machine, replay.snapshot.state)}`
  ]
  const found: Found[] = []
  if (replay.stopped !== null) {
    found.push({
      id: 'does-not-replay',
      weight: 'fault',
      seq: replay.stopped.seq,
      what: `Entry ${replay.stopped.seq} does not follow from what stands before it: ${replay.stopped.why}`,
      danger: 'A gate may have been passed without what it asks for.',
      mend: 'Find out from the people named what was done there, and in which order.'
    })
  } else if (taken < evidence.reading.lines.length) {
    found.push({
      id: 'not-readable',
      weight: 'fault',
      seq: taken + 1,
      what: `From entry ${taken + 1} on the journal cannot be read, so it was not replayed.`,
      danger: 'What was done from there on cannot be told.',
      mend: 'Look for another copy of the journal.'
    })
  } else found.push(...endFound(evidence))
  const deviations = evidence.entries.filter((entry) => entry.event.kind === 'deviation')
  if (deviations.length > 0) {
    checked.push(`Done differently, with a reason: ${deviations.map((entry) => `entry ${entry.seq}`).join(', ')}`)
  }
  checked.push(...locksChecked(evidence))
  return { found: [...found, ...modeFound(evidence)], checked }
}

const noMachine: Found = {
  id: 'no-machine',
  weight: 'doubt',
  seq: null,
  what: 'The machine that the run names is not kept here, or cannot be stepped.',
  danger: 'Whether the steps were those of the procedure cannot be told.',
  mend: 'Put the machine of that digest back into `issued/` or `drafts/`.'
}

/** Closed, and how. */
function endFound(evidence: Evidence): readonly Found[] {
  const last = evidence.entries.at(-1)
  const status = evidence.replay?.snapshot.status ?? 'new'
  if (last?.event.kind === 'stopped' && last.event.left !== undefined) {
    return [
      {
        id: 'stopped-open',
        weight: 'fault',
        seq: last.seq,
        what: `Work was stopped with the equipment left as told here: ${last.event.left}`,
        danger: 'Someone may come upon equipment that is open or not held dead.',
        mend: 'Go and look what is locked and what is open, and have it made good.'
      }
    ]
  }
  if (status === 'finished' || status === 'stopped') return []
  const locks = hangingLocks(evidence)?.length ?? 0
  const hanging = locks === 0 ? '' : ` ${count(locks, 'lock hangs', 'locks hang')} on the equipment by this record.`
  return [
    {
      id: 'still-open',
      weight: 'doubt',
      seq: last?.seq ?? null,
      what: `The run was not closed.${hanging}`,
      danger: 'Work may still be going on, or a later part of the journal may have been cut off.',
      mend: 'Ask who is at work there; have the run gone on with, or stopped.'
    }
  ]
}

/** Work that was stopped, or is still open, can leave locks behind. */
function locksChecked(evidence: Evidence): readonly string[] {
  return (hangingLocks(evidence) ?? []).map((lock) => `Still hanging by this record: ${tellLock(lock)}`)
}

function modeFound(evidence: Evidence): readonly Found[] {
  const mode = evidence.summary?.mode
  if (mode === 'issued' && issuedLater(evidence)) {
    return [
      {
        id: 'work-before-issue',
        weight: 'fault',
        seq: 1,
        what: `Work dated before the procedure was issued: opened ${evidence.summary?.openedAt}, issued ${evidence.issue?.at}.`,
        danger: 'The work was done by something that nobody had released, or one of the two times is not true.',
        mend: 'Find out by which procedure it was done, and what the clocks and the sheet said.'
      }
    ]
  }
  if (mode === 'issued' && evidence.issue === null) {
    return [
      {
        id: 'not-released',
        weight: 'doubt',
        seq: 1,
        what: 'That a coordinator had issued this machine cannot be shown.',
        danger: 'That it was followed does not say that it was the right procedure for this equipment.',
        mend: 'See what stands under `whole`.'
      }
    ]
  }
  if (mode === 'draft') {
    return [
      {
        id: 'draft',
        weight: 'doubt',
        seq: 1,
        what:
          evidence.issue === null || issuedLater(evidence)
            ? 'The run followed a draft that no coordinator had issued.'
            : 'The run was opened as a draft, though a coordinator had issued the procedure.',
        danger: 'That it was followed does not say that it was the right procedure for this equipment.',
        mend: 'Have the procedure looked at and issued before it is used again.'
      }
    ]
  }
  if (mode === 'rehearsal') {
    return [
      {
        id: 'rehearsal',
        weight: 'doubt',
        seq: 1,
        what: 'The run was a rehearsal.',
        danger: 'It says nothing of the state of any equipment.',
        mend: 'Do not count it as work done.'
      }
    ]
  }
  return []
}

function titleOf(machine: Machine, state: Parameters<typeof stateOf>[1]): string {
  return `"${stateOf(machine, state).title}"`
}
