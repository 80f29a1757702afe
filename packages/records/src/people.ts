import { generateKeyPairSync, type KeyObject } from 'node:crypto'
import { existsSync } from 'node:fs'
import type { PersonId } from '@lockwright/machine'
import type { Clock } from './clock.js'
import { writeDurably } from './durable-file.js'
import { hasKeyFile, keepKey, keyFileOf, passphraseFault, siteRoot } from './key-store.js'
import { publicBytesOf } from './public-key.js'
import { bad, good, type RecordsResult } from './result.js'
import { formatRoster, type KeyEnd, type Person, personIdPattern, type Qualification, type Roster } from './roster.js'
import { changePerson, changeRoster, changeWholeRoster } from './roster-file.js'
import { layout, makeFolders, type Site } from './site.js'
import { hidden } from './visible.js'

export { siteRoot, unlockKey } from './key-store.js'

export interface InitSite {
  readonly folder: string
  /** Printed name of the site. */
  readonly name: string
  /** Of the root key, which signs the roster and nothing else. */
  readonly passphrase: string
  readonly clock: Clock
  /** scrypt cost N; see `usualScryptCost`. */
  readonly cost?: number
}

/** Makes a site folder: an empty roster, signed by a new root key. */
export function initSite(request: InitSite): RecordsResult<Site> {
  const site = makeFolders(request.folder)
  const file = layout.people(site)
  if (existsSync(file) || hasKeyFile(site, siteRoot)) {
    return bad({
      id: 'site-exists',
      file,
      what: 'The folder holds a site already.',
      danger: 'A new root key would make every record in it unreadable for an auditor.',
      mend: 'Give a new folder.'
    })
  }
  const fault = nameFault(request.name) ?? passphraseFault(request.passphrase, `the root key of ${request.name}`)
  if (fault !== null) return fault
  const { privateKey } = generateKeyPairSync('ed25519')
  keepKey(site, siteRoot, privateKey, request.passphrase, request.cost)
  const roster: Roster = {
    site: request.name,
    serial: 1,
    signedAt: request.clock.now().at,
    root: publicBytesOf(privateKey),
    people: []
  }
  writeDurably(file, formatRoster(roster, privateKey))
  return good(site)
}

export interface AddPerson {
  readonly site: Site
  readonly id: string
  /** As it is to be printed with a signature. */
  readonly name: string
  readonly qualifications: readonly Qualification[]
  /** For a new key of this person; null: the person signs nothing here. */
  readonly passphrase: string | null
  /** The site's private key, see `unlockKey(site, 'site-root', ...)`. */
  readonly root: KeyObject
  readonly clock: Clock
  readonly cost?: number
}

/** Adds a person to the roster and, with a passphrase, makes a key. */
export function addPerson(request: AddPerson): RecordsResult<Roster> {
  const { site, id, name, passphrase, root } = request
  const file = layout.people(site)
  const fault =
    idFault(id) ?? nameFault(name) ?? (passphrase === null ? null : passphraseFault(passphrase, `the new key of ${id}`))
  if (fault !== null) return fault
  return changeRoster(site, root, request.clock.now().at, (people) => {
    // File systems that do not tell Anna from anna would give both one key file.
    if (people.some((person) => person.id.toLowerCase() === id.toLowerCase())) return idTaken(id, file)
    if (hasKeyFile(site, id)) return keyThere(id, keyFileOf(site, id))
    const key = passphrase === null ? null : generateKeyPairSync('ed25519').privateKey
    if (key !== null && passphrase !== null) keepKey(site, id, key, passphrase, request.cost)
    const person: Person = {
      id: id as PersonId,
      name,
      key: key === null ? null : publicBytesOf(key),
      revokedAt: null,
      qualifications: request.qualifications
    }
    return good([...people, person])
  })
}

/** Replaces the qualifications of a person. One that has ended stays, so that earlier records can still be judged. */
export function qualifyPerson(request: {
  readonly site: Site
  readonly id: string
  readonly qualifications: readonly Qualification[]
  readonly root: KeyObject
  readonly clock: Clock
}): RecordsResult<Roster> {
  return changePerson(request.site, request.root, request.clock.now().at, request.id, (person) => ({
    ...person,
    qualifications: request.qualifications
  }))
}

/**
 * From `from` (RFC 3339) on the person's key signs nothing; what it signed before stays good. An earlier date stays.
 * `because`: `left` where the person works here no more; else `revoked`.
 */
export function revokePerson(request: {
  readonly site: Site
  readonly id: string
  readonly from: string
  readonly because?: Extract<KeyEnd, 'revoked' | 'left'>
  readonly root: KeyObject
  readonly clock: Clock
}): RecordsResult<Roster> {
  return changePerson(request.site, request.root, request.clock.now().at, request.id, (person) => {
    const { revokedAt } = person
    if (revokedAt !== null && Date.parse(revokedAt) <= Date.parse(request.from)) return person
    const { revokedBecause: _, ...others } = person
    return {
      ...others,
      revokedAt: request.from,
      ...(request.because === 'left' ? { revokedBecause: request.because } : {})
    }
  })
}

/** How long a shift is at this site, in hours: a lock that hangs longer without a handover is told by the audit. */
export function setShift(request: {
  readonly site: Site
  readonly hours: number
  readonly root: KeyObject
  readonly clock: Clock
}): RecordsResult<Roster> {
  const { site, hours, root, clock } = request
  if (!(hours > 0 && hours <= 48)) {
    return bad({
      id: 'not-a-shift',
      file: '',
      what: `A shift of ${hours} hours is none.`,
      danger: 'Locks that were left on over a shift would not be told.',
      mend: 'Give the hours of the longest shift of this site, up to 48.'
    })
  }
  return changeWholeRoster(site, { root }, clock.now().at, (old) => good({ ...old, shiftHours: hours }))
}

// What was asked for is refused here, whatever stands in any file: so these name none.

function idFault(id: string): RecordsResult<never> | null {
  if (personIdPattern.test(id) && id !== siteRoot) return null
  return bad({
    id: 'not-an-id',
    file: '',
    what: `\`${id}\` cannot be the id of a person.`,
    danger: 'Records could not name the person without doubt.',
    mend: 'Use letters, digits, `-`, `_` and `+`, up to 64.'
  })
}

function nameFault(name: string): RecordsResult<never> | null {
  if (name.trim() !== '' && name.length <= 200 && !hidden.test(name)) return null
  return bad({
    id: 'not-a-name',
    file: '',
    what: 'The name is empty, too long, or holds characters that do not show.',
    danger: 'A signature is worth nothing under a name that cannot be read.',
    mend: 'Give the name as it is to be printed, up to 200 characters.'
  })
}

function idTaken(id: string, file: string): RecordsResult<never> {
  return bad({
    id: 'id-taken',
    file,
    what: `The roster has someone with the id \`${id}\` already.`,
    danger: 'Records of two people could not be told apart.',
    mend: 'Give another id.'
  })
}

function keyThere(id: string, file: string): RecordsResult<never> {
  return bad({
    id: 'key-there',
    file,
    what: `A key file of \`${id}\` lies here, though the roster does not name that person.`,
    danger: 'A key would be overwritten.',
    mend: 'Find out whose it is and move it away, or give another id.'
  })
}
