import { existsSync, readFileSync } from 'node:fs'
import type { Roster } from '../roster.js'
import type { Site } from '../site.js'
import { originOf, parseCheckpoint } from './checkpoint.js'
import { logFolder } from './log-folder.js'

/**
 * What the log of a site calls itself. A log that has signed a checkpoint keeps the name it had there, also after its
 * root key was changed, so that a checkpoint which somebody keeps can still be held against it.
 */
export function logOrigin(site: Site, roster: Roster): string {
  const file = logFolder.checkpoint(site)
  const [text = ''] = existsSync(file) ? readFileSync(file, 'utf8').split('\n\n') : []
  const signed = parseCheckpoint(`${text}\n`)?.origin
  const [first, ...former] = originsOf(roster)
  return [first, ...former].find((one) => one === signed) ?? first
}

/** Every name that the log of this site may bear: one for each root key that the site has or had. */
export function originsOf({ site, root, formerRoots = [] }: Roster): readonly [string, ...string[]] {
  return [originOf(site, root), ...formerRoots.map(({ key }) => originOf(site, key))]
}

/** What the log of a shared store calls itself: several folders add to it, so it is another than that of any of them. */
export function sharedOrigin(origin: string): string {
  return `${origin}${sharedEnd}`
}

export function isShared(origin: string): boolean {
  return origin.endsWith(sharedEnd)
}

const sharedEnd = '/store'
