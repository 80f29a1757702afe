import { openCheckpoint } from '../log/open-checkpoint.js'
import { nodesInTiles, openTiles, tilePath } from '../log/tiles.js'
import { sameHash, type TreeHash } from '../log/tree-hash.js'
import { type NodeReader, treeRoot } from '../log/tree-proofs.js'
import type { RecordsFault } from '../result.js'
import { parseRoster } from '../roster.js'
import { rootKeysOf } from '../roster-keys.js'
import type { Kept, Store } from './store.js'

/** Whether a store may keep a checkpoint: signed by a root key of its roster, over what its log was at that size. */
export async function judgeCheckpoint(
  store: Store,
  note: string
): Promise<{ readonly kind: 'keep'; readonly size: number } | Extract<Kept, { kind: 'refused' }>> {
  const bytes = await store.signed('people.yaml')
  const roster = bytes === null ? null : parseRoster(bytes, 'people.yaml')
  if (roster === null) return refused('there is no roster here yet, so its signature cannot be checked')
  if (!roster.ok) return { kind: 'refused', fault: roster.faults[0] }
  const [origin = ''] = note.split('\n', 1)
  const keys = rootKeysOf(roster.value).map((key) => ({ name: origin, key }))
  const opened = openCheckpoint(note, keys, 'log/checkpoint')
  if (!opened.ok) return { kind: 'refused', fault: opened.faults[0] }
  const { size, root } = opened.value
  if (size > (await store.leafCount())) return refused(`it is of ${size} leaves, and there are fewer here`)
  return sameHash(await rootAt(store, size), root) ? { kind: 'keep', size } : refused('it is of another log')
}

/** Root of the first `size` leaves, by the tiles of the store. */
export async function rootAt(store: Store, size: number): Promise<TreeHash> {
  return treeRoot(size, await peaksAt(store, size))
}

/** The largest whole subtrees of the first `size` leaves: one tile a level is read. */
export async function peaksAt(store: Store, size: number): Promise<NodeReader> {
  const tiles = new Map<string, Uint8Array>()
  for (const tile of openTiles(size)) tiles.set(tilePath(tile), (await store.tile(tile)) ?? new Uint8Array())
  return nodesInTiles(size, (tile) => tiles.get(tilePath(tile)) ?? new Uint8Array())
}

function refused(why: string): Extract<Kept, { kind: 'refused' }> {
  const fault: RecordsFault = {
    id: 'checkpoint-refused',
    file: 'log/checkpoint',
    line: null,
    what: `The checkpoint was not kept: ${why}.`,
    danger: 'Whoever held the log against it could not tell an honest log from a rewritten one.',
    mend: 'Sign the log as it stands here with `lockwright store checkpoint`.'
  }
  return { kind: 'refused', fault }
}
