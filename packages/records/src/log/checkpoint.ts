import type { KeyObject } from 'node:crypto'
import { thumbprint } from '../public-key.js'
import { fromBase64, isKeyName, signNote } from './signed-note.js'
import { hashBytes } from './tiles.js'
import type { TreeHash } from './tree-hash.js'

/** What a checkpoint says: how many leaves the log of that origin has, and their root. */
export interface Checkpoint {
  readonly origin: string
  readonly size: number
  readonly root: TreeHash
}

/** Body in the C2SP tlog-checkpoint form: origin, size and base64 root, a line each. */
export function formatCheckpoint({ origin, size, root }: Checkpoint): string {
  return `${origin}\n${size}\n${Buffer.from(root).toString('base64')}\n`
}

/** The checkpoint of a note's text; null where it is none. Lines behind the third are allowed and say nothing. */
export function parseCheckpoint(text: string): Checkpoint | null {
  const [origin = '', size = '', root = '', ...more] = text.split('\n')
  if (more.at(-1) !== '' || more.slice(0, -1).includes('') || origin === '') return null
  const bytes = fromBase64(root)
  if (!/^(0|[1-9]\d{0,14})$/.test(size) || bytes?.length !== hashBytes) return null
  return { origin, size: Number(size), root: bytes }
}

export function signCheckpoint(checkpoint: Checkpoint, key: KeyObject): string {
  return signNote(formatCheckpoint(checkpoint), checkpoint.origin, key)
}

/**
 * What a log calls itself: `lockwright/<site>/<thumbprint>`, with the printed name of the site in plain letters and the
 * thumbprint of its root key, so that no two sites share one. Neither blanks nor plus signs can stand in it.
 */
export function originOf(site: string, root: string): string {
  const plain = site
    .normalize('NFKD')
    .toLowerCase()
    .replaceAll(/\p{M}/gu, '')
    .replaceAll(/[^a-z0-9]+/g, '-')
    .replaceAll(/^-|-$/g, '')
  const origin = `lockwright/${plain === '' ? 'site' : plain.slice(0, 60)}/${thumbprint(root)}`
  if (!isKeyName(origin)) throw new RangeError('not a key name')
  return origin
}
