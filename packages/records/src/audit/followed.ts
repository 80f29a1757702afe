import { type Machine, stateOf } from '@lockwright/machine'
import type { Evidence } from './evidence.js'
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
  const { status, locks } = evidence.replay?.snapshot ?? { status: 'new', locks: [] }
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
  const hanging = locks.length === 0 ? '' : ` ${count(locks.length, 'lock')} hang on the equipment by this record.`
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

function modeFound(evidence: Evidence): readonly Found[] {
  const mode = evidence.summary?.mode
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
        what: 'The run followed a draft that no coordinator had issued.',
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
