import type { KeyObject } from 'node:crypto'
import { existsSync, readFileSync } from 'node:fs'
import type { PersonId } from '@lockwright/machine'
import { whereDiskHolds } from './disk/disk-trouble.js'
import { writeDurably } from './durable-file.js'
import { publicBytesOf } from './public-key.js'
import { bad, good, type RecordsResult } from './result.js'
import { formatRoster, type Person, parseRoster, type Roster } from './roster.js'
import { layout, type Site } from './site.js'
import { lockForWriting } from './writer-lock.js'

/**
 * The roster of a site, its signature checked. `trusted`: the root key that the caller knows from elsewhere, as
 * base64url or as thumbprint; without it a roster that was replaced whole, root key and all, is not noticed.
 */
export function readRoster(site: Site, trusted?: string): RecordsResult<Roster> {
  const file = layout.people(site)
  if (existsSync(file)) return parseRoster(readFileSync(file), file, trusted)
  return bad({
    id: 'no-roster',
    file,
    what: 'The site folder has no roster of people.',
    danger: 'Nobody can be told to be qualified, and no signature can be checked.',
    mend: 'Make one with `people init`, or put the site folder right.'
  })
}

export { keyHoldsAt } from './roster-keys.js'

export function personOf(roster: Roster, id: string): Person | null {
  return roster.people.find((person) => person.id === id) ?? null
}

/** Whether the person held every one of these qualifications at that time (RFC 3339). */
export function holdsAt(person: Person, qualifications: readonly string[], at: string): boolean {
  const day = at.slice(0, 10)
  return qualifications.every((needed) =>
    person.qualifications.some(
      (held) => held.is === needed && held.validFrom <= day && (held.validUntil === null || day <= held.validUntil)
    )
  )
}

/** Changes the people of a roster, signs it anew and puts it in place; two changes at once do not lose one. */
export function changeRoster(
  site: Site,
  root: KeyObject,
  at: string,
  change: (people: readonly Person[]) => RecordsResult<readonly Person[]>
): RecordsResult<Roster> {
  return changeWholeRoster(site, { root }, at, (old) => {
    const people = change(old.people)
    return people.ok ? good({ ...old, people: people.value }) : people
  })
}

/** Who changes a roster: by the root key that stands in it, or by another that takes its place. */
export type RosterSigner =
  | { readonly root: KeyObject; readonly next?: KeyObject }
  /** Without the one that stands in it: whoever knows that one alone will not believe the change. */
  | { readonly root: null; readonly next: KeyObject }

/** The same for what stands above the people. */
export function changeWholeRoster(
  site: Site,
  signer: RosterSigner,
  at: string,
  change: (old: Roster) => RecordsResult<Roster>
): RecordsResult<Roster> {
  const file = layout.people(site)
  return whereDiskHolds(file, () => changeFile(file, site, signer, at, change))
}

function changeFile(
  file: string,
  site: Site,
  signer: RosterSigner,
  at: string,
  change: (old: Roster) => RecordsResult<Roster>
): RecordsResult<Roster> {
  const locked = lockForWriting(file)
  if (!locked.ok) {
    return bad({
      id: 'in-use',
      file,
      what: `Process ${locked.pid} on ${locked.host} is changing the roster right now.`,
      danger: 'One of the two changes would be lost.',
      mend: `Try again in a moment. If no such process runs there any more, remove \`${locked.file}\`.`
    })
  }
  try {
    const old = readRoster(site)
    if (!old.ok) return old
    const { root } = signer
    if (root !== null && publicBytesOf(root) !== old.value.root) return notTheRoot(file)
    const signing = root === null ? signer.next : (signer.next ?? root)
    const changed = change(old.value)
    if (!changed.ok) return changed
    const text = formatRoster({ ...changed.value, serial: old.value.serial + 1, signedAt: at }, signing)
    const read = parseRoster(Buffer.from(text), file)
    if (!read.ok) return unreadable(file, read.faults[0].what)
    writeDurably(file, text)
    return read
  } finally {
    locked.release()
  }
}

/** One person of the roster replaced. */
export function changePerson(
  site: Site,
  root: KeyObject,
  at: string,
  id: string,
  change: (person: Person) => Person
): RecordsResult<Roster> {
  return changeRoster(site, root, at, (people) => {
    if (people.some((person) => person.id === id)) {
      return good(people.map((person) => (person.id === id ? change(person) : person)))
    }
    return noSuchPerson(layout.people(site), id as PersonId)
  })
}

/** Nothing is put in place that would be refused on reading: a day that does not exist, say. */
function unreadable(file: string, why: string): RecordsResult<never> {
  return bad({
    id: 'change-refused',
    file,
    what: `The roster was left as it is. With this change it could not be read: ${why}`,
    danger: 'Without a readable roster nobody can be told to be qualified.',
    mend: 'Give days as 2026-03-02 and times as 2026-03-02T08:00:00Z.'
  })
}

function noSuchPerson(file: string, id: PersonId): RecordsResult<never> {
  return bad({
    id: 'no-such-person',
    file,
    what: `Nobody on the roster has the id \`${id}\`.`,
    danger: 'The change would be for someone else, or for nobody.',
    mend: 'Look the id up with `people list`.'
  })
}

function notTheRoot(file: string): RecordsResult<never> {
  return bad({
    id: 'not-the-root-key',
    file,
    what: 'The key is not the root key of this site.',
    danger: 'Every reader would refuse the roster.',
    mend: 'Unlock the key `site-root` of this site folder.'
  })
}
