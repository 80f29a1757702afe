import type { KeyObject } from 'node:crypto'
import type { PersonId } from '@lockwright/machine'
import { openDetached } from './jws.js'
import { bad, good, type RecordsResult } from './result.js'
import { followRoot } from './root-chain.js'
import { readRosterBody, rosterBody } from './roster-body.js'
import { formatSignedYaml, splitSignedYaml } from './signed-yaml.js'

/** Held from the start of the first day to the end of the last, both in UTC. */
export interface Qualification {
  /** Spelled as in a role's `holds`, e.g. `electrical-lv`. `coordinator` allows to issue. */
  readonly is: string
  /** `YYYY-MM-DD` */
  readonly validFrom: string
  /** `YYYY-MM-DD`; null: until further notice. */
  readonly validUntil: string | null
}

/**
 * Why a key signs nothing any more. `revoked`: no more is known. `rotated`: exchanged for another in good order.
 * `lost`: the file or its passphrase is gone, and nobody else has it. `stolen`: someone else may have it.
 * `left`: its owner does not work here any more.
 */
export type KeyEnd = 'revoked' | 'rotated' | 'lost' | 'stolen' | 'left'

/** One key of a person, and from when until when it could sign. */
export interface PersonKey {
  /** Ed25519 public key, base64url of its 32 bytes. */
  readonly key: string
  /** RFC 3339; null: from the beginning. */
  readonly from: string | null
  /** RFC 3339, the first instant at which it signs nothing; null: it signs. */
  readonly until: string | null
  /** Null while it signs. */
  readonly because: KeyEnd | null
}

/** `keysOf` of `roster-keys.ts` tells all keys of a person, the last one among them. */
export interface Person {
  readonly id: PersonId
  readonly name: string
  /** The last key: Ed25519 public key, base64url of its 32 bytes; null: this person signs nothing here. */
  readonly key: string | null
  /** RFC 3339; from when on the last key signs nothing. What it signed before stays good. */
  readonly revokedAt: string | null
  readonly qualifications: readonly Qualification[]
  /** RFC 3339; from when on the last key signs. Absent: from the beginning. */
  readonly keyFrom?: string
  /** Why the last key signs nothing any more; absent: `revoked`. */
  readonly revokedBecause?: KeyEnd
  /** Keys before the last one, oldest first; absent: none. */
  readonly formerKeys?: readonly PersonKey[]
}

/** A root key that was the site's before. */
export interface FormerRoot {
  readonly key: string
  /** RFC 3339; from then on the next one is the site's. */
  readonly until: string
  readonly because: 'rotated' | 'lost' | 'stolen'
  /** Its signature that hands over to the next one, where it was there to sign; see `root-chain.ts`. */
  readonly handover: string | null
}

/** `people.yaml`, once its signature was found good. */
export interface Roster {
  readonly site: string
  /** Rises by one with each change. */
  readonly serial: number
  readonly signedAt: string
  /** The site's root key, base64url of its 32 bytes. */
  readonly root: string
  readonly people: readonly Person[]
  /** Root keys before this one, oldest first; absent: none. */
  readonly formerRoots?: readonly FormerRoot[]
  /** How long a shift is, hours; absent: not said, see `shift.ts`. */
  readonly shiftHours?: number
}

/** Letters, digits, `-`, `_` and `+`, as for every id. */
export { personIdPattern } from './roster-body.js'

/** The text of `people.yaml`: the roster, and as its last line the root key's signature over all bytes before. */
export function formatRoster(roster: Roster, root: KeyObject): string {
  return formatSignedYaml('lockwright-roster', rosterBody(roster), root)
}

/**
 * The roster of a `people.yaml`, only if its signature is that of its root key, and that key is the one the caller
 * knows (`trusted`: its base64url or its thumbprint), where one is given, or was handed over to by that one.
 */
export function parseRoster(bytes: Uint8Array, file: string, trusted?: string): RecordsResult<Roster> {
  const split = splitSignedYaml(bytes)
  if (split === null) return unsound(file, 'It does not end in a signature.')
  const { body, signature } = split
  const root = /^root: ([A-Za-z0-9_-]{43})$/m.exec(body)?.[1] ?? ''
  const opened = openDetached('lockwright-roster', body, signature, [root])
  // Whoever swapped the root key signed with it as well, so the wrong key is told before anything else.
  const read = opened.ok ? readRosterBody(body) : null
  const known = read !== null && 'roster' in read && read.roster.root === root ? read.roster : null
  const strange = trusted === undefined ? null : followRoot(root, known, trusted)
  if (strange !== null) return unsound(file, strange)
  if (!opened.ok) return unsound(file, `Its signature does not hold: ${opened.why}.`)
  if (read !== null && 'fault' in read) return unsound(file, read.fault)
  return known === null ? unsound(file, 'It names two root keys.') : good(known)
}

function unsound(file: string, why: string): RecordsResult<never> {
  return bad({
    id: 'roster-unsound',
    file,
    what: `The roster cannot be relied on. ${why}`,
    danger: 'Whoever altered it could pass for a qualified person.',
    mend: 'Put back the copy that the holder of the root key signed, or have the roster made and signed anew.'
  })
}
