import type { KeyObject } from 'node:crypto'
import { originOf, parseCheckpoint, signCheckpoint } from '../log/checkpoint.js'
import { frontierOf } from '../log/frontier.js'
import { sharedOrigin } from '../log/origin.js'
import { leafHash, sameHash } from '../log/tree-hash.js'
import { publicBytesOf } from '../public-key.js'
import { bad, good, type RecordsResult } from '../result.js'
import { parseRoster } from '../roster.js'
import { peaksAt } from './judge-checkpoint.js'
import type { Store } from './store.js'

export interface SignedStoreLog {
  /** The checkpoint as a signed note, to be kept elsewhere. */
  readonly note: string
  readonly size: number
}

const atOnce = 5_000

/**
 * Signs what the log of a shared store is now. Several folders add to it, so its leaves stand in another order than in
 * any of them: it bears a name of its own. Never a log that does not begin with the one that was signed there last.
 */
export async function signStoreLog(store: Store, root: KeyObject): Promise<RecordsResult<SignedStoreLog>> {
  const bytes = await store.signed('people.yaml')
  const roster = bytes === null ? notTheRoot(store) : parseRoster(bytes, 'people.yaml')
  if (!roster.ok) return roster
  if (publicBytesOf(root) !== roster.value.root) return notTheRoot(store)
  const last = await store.checkpoint()
  const before = last === null ? null : parseCheckpoint(`${last.split('\n\n')[0]}\n`)
  const size = before?.size ?? 0
  if (size > (await store.leafCount())) return notItsContinuation(store)
  // Worked out from the leaves since, not from the hashes that the store keeps.
  const frontier = frontierOf(size, await peaksAt(store, size))
  if (before !== null && !sameHash(frontier.root(), before.root)) return notItsContinuation(store)
  for (;;) {
    const lines = await store.leaves(frontier.size, atOnce)
    for (const line of lines) frontier.push(leafHash(line))
    if (lines.length < atOnce) break
  }
  const origin = before?.origin ?? sharedOrigin(originOf(roster.value.site, roster.value.root))
  const note = signCheckpoint({ origin, size: frontier.size, root: frontier.root() }, root)
  const kept = await store.keepCheckpoint(note)
  return 'fault' in kept ? { ok: false, faults: [kept.fault] } : good({ note, size: frontier.size })
}

function notTheRoot({ name }: Store): RecordsResult<never> {
  return bad({
    id: 'not-the-root-key',
    file: name,
    what: 'The key is not the root key of the roster that the shared store holds.',
    danger: 'Nobody who knows the key of the site could check the checkpoint.',
    mend: 'Sync the site folder that holds the roster first, and unlock its key `site-root`.'
  })
}

function notItsContinuation({ name }: Store): RecordsResult<never> {
  return bad({
    id: 'log-forked',
    file: name,
    what: 'The log of the shared store does not begin with the one that was signed last: leaves were removed, changed or moved.',
    danger: 'A signature over it would cover up that closed runs were tampered with.',
    mend: 'Nothing was signed. Have the keeper of the database put back its newest backup, and audit against a checkpoint that was kept elsewhere.'
  })
}
