import type { Snapshot } from '@lockwright/machine'
import type { Evidence } from './evidence.js'
import type { Found } from './verdict.js'

/** What may be written before anybody has looked at the locks. */
const handsOff: ReadonlySet<string> = new Set(['resumed', 'note', 'attachment', 'paused', 'stopped'])

/**
 * Where the runner was gone while locks hung, and the run went on without a word that they still do. After a pause
 * `advance` asks for it; that the runner died it cannot know, so here the change of session tells.
 */
export function breaksFound({ entries, replay, summary }: Evidence): readonly Found[] {
  if (replay === null || summary === null || summary.onPaper || summary.mode === 'rehearsal') return []
  const found: Found[] = []
  let unseen = false
  for (const [index, { session, seq, event }] of entries.slice(0, replay.snapshots.length - 1).entries()) {
    const { locks } = replay.snapshots[index] as Snapshot
    if (index > 0 && session !== entries[index - 1]?.session) unseen = locks.length > 0
    if (event.kind === 'resumed') unseen = false
    if (!unseen || handsOff.has(event.kind)) continue
    unseen = false
    found.push(notLookedAt(seq))
  }
  return found
}

function notLookedAt(seq: number): Found {
  return {
    id: 'locks-not-looked-at',
    weight: 'doubt',
    seq,
    what: 'The run was taken up after a break while locks hung, and nobody said that they were looked at.',
    danger: 'A lock may have been off, or energy that builds up by itself may have come back.',
    mend: 'Ask whoever went on whether they looked at every lock, and proved again what can rebuild.'
  }
}
