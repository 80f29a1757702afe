import type { KeyObject } from 'node:crypto'
import { canonicalJson } from './canonical-json.js'
import { openDetached, signDetached } from './jws.js'
import { thumbprint } from './public-key.js'
import type { FormerRoot, Roster } from './roster.js'

/** What an outgoing root key signs: that from `at` on another one is the root key of this site. */
export interface Handover {
  readonly site: string
  /** base64url of the public keys. */
  readonly from: string
  readonly to: string
  /** RFC 3339 */
  readonly at: string
}

/** The detached signature of the outgoing root key over the canonical bytes of the handover. */
export function signHandover({ at, from, site, to }: Handover, outgoing: KeyObject): string {
  return signDetached('lockwright-root', canonicalJson({ at, from, site, to }), outgoing)
}

/** One signed step from a root key to the next: thumbprints, and when. */
export interface FollowedHandover {
  readonly from: string
  readonly to: string
  /** RFC 3339 */
  readonly at: string
}

/** The handovers from the root key that the caller knows to the one that signs; empty: that is the one. `roster`: read with it. */
export function handoversFrom({ root, formerRoots = [] }: Roster, trusted: string): readonly FollowedHandover[] {
  const known = formerRoots.findLastIndex(({ key }) => key === trusted || thumbprint(key) === trusted)
  if (known === -1 || trusted === root || trusted === thumbprint(root)) return []
  return formerRoots.slice(known).map(({ key, until }, index) => ({
    from: thumbprint(key),
    to: thumbprint(formerRoots[known + index + 1]?.key ?? root),
    at: until
  }))
}

/**
 * Whether the root key of a roster is the one that the caller knows, or was handed over to by it, step by step, each
 * signed. Null: it is; else a whole sentence that says why not. `roster`: null where it could not be read.
 */
export function followRoot(root: string, roster: Roster | null, trusted: string): string | null {
  const isTrusted = (key: string): boolean => trusted === key || trusted === thumbprint(key)
  if (isTrusted(root)) return null
  const strange = `Its root key ${thumbprint(root)} is not the one that was given.`
  const former = roster?.formerRoots ?? []
  const known = former.findLastIndex(({ key }) => isTrusted(key))
  if (roster === null || known === -1) return strange
  for (let index = known; index < former.length; index += 1) {
    const from = former[index] as FormerRoot
    const to = former[index + 1]?.key ?? root
    if (from.because !== 'rotated') {
      return (
        `${strange} It says that ${thumbprint(from.key)} was ${from.because} on ${from.until} and could hand nothing over. ` +
        'Have the new thumbprint told you by the coordinator, by another way than this folder.'
      )
    }
    const statement = canonicalJson({ at: from.until, from: from.key, site: roster.site, to })
    const opened = openDetached('lockwright-root', statement, from.handover ?? '', [from.key])
    if (!opened.ok) return `${strange} The handover of ${thumbprint(from.key)} does not hold: ${opened.why}.`
  }
  return null
}
