import { generateKeyPairSync, type KeyObject } from 'node:crypto'
import type { Clock } from './clock.js'
import { passphraseFault, prepareKey, settleKey } from './key-store.js'
import { publicBytesOf } from './public-key.js'
import { bad, good, type RecordsResult } from './result.js'
import type { KeyEnd, Person, PersonKey, Roster } from './roster.js'
import { changeRoster } from './roster-file.js'
import { keysOf, withKeys } from './roster-keys.js'
import { layout, type Site } from './site.js'

export interface ChangeKey {
  readonly site: Site
  readonly id: string
  /** For the new key; null: the person gets none, and signs nothing from now on. */
  readonly passphrase: string | null
  /** The site's private key, see `unlockKey(site, 'site-root', ...)`. */
  readonly root: KeyObject
  readonly clock: Clock
  readonly cost?: number
}

/** A new key from now on; what the old one signed until now stays good. Who had none gets a first one. */
export function rotateKey(request: ChangeKey): RecordsResult<Roster> {
  const { at } = request.clock.now()
  return changeKey(request, (keys) => endedBy(keys, at, 'rotated'))
}

/** The key file or its passphrase is gone, and nobody else can have them: the key ends now, and a new one begins. */
export function loseKey(request: ChangeKey): RecordsResult<Roster> {
  const { at } = request.clock.now()
  return changeKey(request, (keys) => (keys.length === 0 ? null : endedBy(keys, at, 'lost')))
}

/**
 * Someone else may have the key since `since` (RFC 3339): what any key of this person signed from then on counts for
 * nothing. Keys made since then count as stolen too: they lay where the stolen one lay.
 */
export function stealKey(request: ChangeKey & { readonly since: string }): RecordsResult<Roster> {
  const { since, clock } = request
  if (Number.isNaN(Date.parse(since)) || Date.parse(since) > Date.parse(clock.now().at)) return notYet(request)
  return changeKey(request, (keys) => (keys.length === 0 ? null : keys.map((key) => stolenSince(key, since))))
}

function stolenSince(key: PersonKey, since: string): PersonKey {
  if (key.until !== null && Date.parse(key.until) <= Date.parse(since)) return key
  const begun = key.from !== null && Date.parse(key.from) > Date.parse(since)
  return { ...key, until: begun ? key.from : since, because: 'stolen' }
}

/** The last key ended now, unless it has ended already. */
function endedBy(keys: readonly PersonKey[], at: string, because: KeyEnd): readonly PersonKey[] {
  return keys.map((key, index) =>
    index < keys.length - 1 || (key.until !== null && Date.parse(key.until) <= Date.parse(at))
      ? key
      : { ...key, until: at, because }
  )
}

/** `end`: what becomes of the keys that there are; null where there is none that could end. */
function changeKey(
  request: ChangeKey,
  end: (keys: readonly PersonKey[]) => readonly PersonKey[] | null
): RecordsResult<Roster> {
  const { site, id, passphrase, root, clock, cost } = request
  const fault = passphrase === null ? null : passphraseFault(passphrase, `the new key of ${id}`)
  if (fault !== null) return fault
  const { at } = clock.now()
  const changed = changeRoster(site, root, at, (people) => {
    const person = people.find((one) => one.id === id)
    if (person === undefined) return noSuchPerson(site, id)
    const ended = end(keysOf(person))
    if (ended === null) return noKeyToEnd(site, id)
    const key = passphrase === null ? null : generateKeyPairSync('ed25519').privateKey
    if (key !== null && passphrase !== null) prepareKey(site, id, key, passphrase, cost)
    const begun: readonly PersonKey[] =
      key === null ? [] : [{ key: publicBytesOf(key), from: at, until: null, because: null }]
    const { name, qualifications } = person
    const next: Person = { id: person.id, name, qualifications, ...withKeys([...ended, ...begun]) }
    return good(people.map((one) => (one === person ? next : one)))
  })
  settleKey(site, id)
  return changed
}

function noSuchPerson(site: Site, id: string): RecordsResult<never> {
  return bad({
    id: 'no-such-person',
    file: layout.people(site),
    what: `Nobody on the roster has the id \`${id}\`.`,
    danger: 'The change would be for someone else, or for nobody.',
    mend: 'Look the id up with `people list`.'
  })
}

function noKeyToEnd(site: Site, id: string): RecordsResult<never> {
  return bad({
    id: 'no-key-to-end',
    file: layout.people(site),
    what: `\`${id}\` never had a key here.`,
    danger: 'Someone else may be the one whose key is meant.',
    mend: 'Look the id up with `people list`. `people rotate` gives a first key to someone who has none.'
  })
}

function notYet({ site }: ChangeKey): RecordsResult<never> {
  return bad({
    id: 'theft-not-yet',
    file: layout.people(site),
    what: 'The time since when the key is stolen is none, or lies in the future.',
    danger: 'What the thief signs until then would count.',
    mend: 'Give the last time at which it was surely still in safe hands, such as 2026-03-02T08:00:00Z.'
  })
}
