import { join } from 'node:path'
import type { Site } from '../site.js'
import { type Tile, tilePath } from './tiles.js'

/** Where the parts of the site log lie. Leaves and checkpoints are records; the rest is made of the leaves. */
export const logFolder = {
  folder: (site: Site) => join(site.folder, 'log'),
  /** One leaf a line. */
  leaves: (site: Site) => join(site.folder, 'log', 'leaves.jsonl'),
  /** Eight bytes a leaf: where its line ends. A leaf counts once it stands here. */
  ends: (site: Site) => join(site.folder, 'log', 'leaves.ends'),
  tile: (site: Site, tile: Tile) => join(site.folder, 'log', ...tilePath(tile).split('/')),
  /** Which leaf a run has, in 256 files by the hash of its name. */
  numbers: (site: Site, bucket: string) => join(site.folder, 'log', 'numbers', bucket),
  /** The checkpoint that was signed last. */
  checkpoint: (site: Site) => join(site.folder, 'log', 'checkpoint'),
  checkpoints: (site: Site) => join(site.folder, 'log', 'checkpoints'),
  signed: (site: Site, size: number) => join(site.folder, 'log', 'checkpoints', `${size}`),
  torn: (site: Site, n: number) => join(site.folder, 'log', `leaves.torn-${n}`)
} as const

/** Bytes of one number in `leaves.ends`: big-endian, unsigned. */
export const endBytes = 8
