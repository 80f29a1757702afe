import { thumbprint } from './public-key.js'
import type { KeyEnd, Person, PersonKey, Roster } from './roster.js'

/** All keys of a person, oldest first: the one home for which key could sign when. */
export function keysOf(person: Person): readonly PersonKey[] {
  const { key, keyFrom = null, revokedAt, revokedBecause = 'revoked', formerKeys = [] } = person
  if (key === null) return formerKeys
  const because: KeyEnd | null = revokedAt === null ? null : revokedBecause
  return [...formerKeys, { key, from: keyFrom, until: revokedAt, because }]
}

/** What stands in a person for these keys: the last one in the place of the last. */
export function withKeys(keys: readonly PersonKey[]): Omit<Person, 'id' | 'name' | 'qualifications'> {
  const last = keys.at(-1)
  if (last === undefined) return { key: null, revokedAt: null }
  const { key, from, until, because } = last
  return {
    key,
    revokedAt: until,
    ...(from === null ? {} : { keyFrom: from }),
    ...(because === null || because === 'revoked' ? {} : { revokedBecause: because }),
    ...(keys.length === 1 ? {} : { formerKeys: keys.slice(0, -1) })
  }
}

/** The key that could sign at that time (RFC 3339); null: none could. */
export function keyOf(person: Person, at: string): PersonKey | null {
  return keysOf(person).find((one) => inForce(one, at)) ?? null
}

/** Whether some key of the person could sign at that time (RFC 3339). */
export function keyHoldsAt(person: Person, at: string): boolean {
  return keyOf(person, at) !== null
}

/** What speaks against a signature that this key of the person made at that time; null: nothing. */
export type KeyDoubt = { readonly kind: 'not-theirs' | 'not-yet' } | { readonly kind: 'ended'; readonly key: PersonKey }

/** `key`: base64url of the public key, or its thumbprint. */
export function keyDoubt(person: Person, key: string, at: string): KeyDoubt | null {
  const found = keysOf(person).findLast((one) => one.key === key || thumbprint(one.key) === key)
  if (found === undefined) return { kind: 'not-theirs' }
  if (inForce(found, at)) return null
  return found.until !== null && Date.parse(at) >= Date.parse(found.until)
    ? { kind: 'ended', key: found }
    : { kind: 'not-yet' }
}

/** `was lost, and signs nothing from 2026-05-01T00:00:00Z on` */
export function tellEnd({ because, until }: PersonKey): string {
  return `${endWords[because ?? 'revoked']}, and signs nothing from ${until} on`
}

const endWords: Readonly<Record<KeyEnd, string>> = {
  revoked: 'was revoked',
  rotated: 'was exchanged for another',
  lost: 'was lost',
  stolen: 'may be in the hands of someone else',
  left: 'ended when its owner left'
}

/** Every key that anyone on the roster has or had. */
export function everyKey(roster: Roster): readonly string[] {
  return roster.people.flatMap((person) => keysOf(person).map(({ key }) => key))
}

/** The site's root key, and before it those that handed over to it in good order. A lost or stolen one vouches for nothing. */
export function rootKeysOf({ root, formerRoots = [] }: Roster): readonly string[] {
  const broken = formerRoots.findLastIndex(({ because }) => because !== 'rotated')
  return [root, ...formerRoots.slice(broken + 1).map(({ key }) => key)]
}

function inForce({ from, until }: PersonKey, at: string): boolean {
  const time = Date.parse(at)
  return (from === null || Date.parse(from) <= time) && (until === null || time < Date.parse(until))
}
