import { publicKeyFrom } from './public-key.js'
import type { FormerRoot, KeyEnd, Person, PersonKey, Qualification, Roster } from './roster.js'
import { keysOf, withKeys } from './roster-keys.js'
import {
  date,
  instant,
  integer,
  list,
  matching,
  nullOr,
  number,
  oneOf,
  optional,
  record,
  type Shape,
  text,
  word
} from './shape.js'
import { readSignedBody } from './signed-yaml.js'

/** Letters, digits, `-`, `_` and `+`, as for every id. */
export const personIdPattern = /^[A-Za-z0-9][A-Za-z0-9_+-]{0,63}$/

const publicKey: Shape = (value) =>
  typeof value === 'string' && publicKeyFrom(value) !== null ? null : 'is not an Ed25519 public key in base64url'

const hours: Shape = (value) =>
  number(value) ?? ((value as number) > 0 && (value as number) <= 48 ? null : 'is not a number of hours from 0 to 48')

const qualifications = list(record({ is: word, 'valid-from': date, 'valid-until': nullOr(date) }))
const head = { site: text, serial: integer(1), 'signed-at': instant, root: publicKey }

const firstShape = record({
  'lockwright-roster': (value) => (value === 1 ? null : 'is not version 1 or 2'),
  ...head,
  people: list(
    record({
      id: matching(personIdPattern, 'an id'),
      name: text,
      key: nullOr(publicKey),
      'revoked-at': nullOr(instant),
      qualifications
    })
  )
})

const keyEnds = ['revoked', 'rotated', 'lost', 'stolen', 'left'] as const satisfies readonly KeyEnd[]

const personKey: Shape = (value) => {
  const fault = record({
    key: publicKey,
    from: nullOr(instant),
    until: nullOr(instant),
    'ended-because': nullOr(oneOf(...keyEnds))
  })(value)
  if (fault !== null) return fault
  const { until, 'ended-because': because } = value as KeyInFile
  return (until === null) === (because === null) ? null : 'says that it ended and not why, or why and not when'
}

const formerRoot = record({
  key: publicKey,
  until: instant,
  'ended-because': oneOf('rotated', 'lost', 'stolen'),
  handover: nullOr(word)
})

const secondShape = record({
  'lockwright-roster': (value) => (value === 2 ? null : 'is not version 1 or 2'),
  ...head,
  'former-roots': list(formerRoot),
  'shift-hours': optional(hours),
  people: list(record({ id: matching(personIdPattern, 'an id'), name: text, keys: list(personKey), qualifications }))
})

interface QualificationInFile {
  readonly is: string
  readonly 'valid-from': string
  readonly 'valid-until': string | null
}
interface KeyInFile {
  readonly key: string
  readonly from: string | null
  readonly until: string | null
  readonly 'ended-because': KeyEnd | null
}
interface Head {
  readonly site: string
  readonly serial: number
  readonly 'signed-at': string
  readonly root: string
}
interface FirstFile extends Head {
  readonly people: readonly (Pick<Person, 'id' | 'name' | 'key'> & {
    readonly 'revoked-at': string | null
    readonly qualifications: readonly QualificationInFile[]
  })[]
}
interface SecondFile extends Head {
  readonly 'former-roots': readonly (Pick<FormerRoot, 'key' | 'until' | 'handover'> & {
    readonly 'ended-because': FormerRoot['because']
  })[]
  readonly 'shift-hours'?: number
  readonly people: readonly (Pick<Person, 'id' | 'name'> & {
    readonly keys: readonly KeyInFile[]
    readonly qualifications: readonly QualificationInFile[]
  })[]
}

/** What is written above the signature. Format 1 as long as it can say everything, so that old rosters stay as they are. */
export function rosterBody(roster: Roster): object {
  const { site, serial, signedAt, root, people, formerRoots = [], shiftHours } = roster
  const top = { site, serial, 'signed-at': signedAt, root }
  if (formerRoots.length === 0 && shiftHours === undefined && people.every(isPlain)) {
    return {
      'lockwright-roster': 1,
      ...top,
      people: people.map((person) => ({
        id: person.id,
        name: person.name,
        key: person.key,
        'revoked-at': person.revokedAt,
        qualifications: person.qualifications.map(qualificationInFile)
      }))
    }
  }
  return {
    'lockwright-roster': 2,
    ...top,
    'former-roots': formerRoots.map(({ key, until, because, handover }) => ({
      key,
      until,
      'ended-because': because,
      handover
    })),
    ...(shiftHours === undefined ? {} : { 'shift-hours': shiftHours }),
    people: people.map((person) => ({
      id: person.id,
      name: person.name,
      keys: keysOf(person).map(({ key, from, until, because }) => ({ key, from, until, 'ended-because': because })),
      qualifications: person.qualifications.map(qualificationInFile)
    }))
  }
}

function isPlain({ keyFrom, revokedBecause = 'revoked', formerKeys = [] }: Person): boolean {
  return keyFrom === undefined && revokedBecause === 'revoked' && formerKeys.length === 0
}

function qualificationInFile({ is, validFrom, validUntil }: Qualification): QualificationInFile {
  return { is, 'valid-from': validFrom, 'valid-until': validUntil }
}

/** The roster in what stands above the signature; `fault` is a whole sentence. */
export function readRosterBody(body: string): { readonly roster: Roster } | { readonly fault: string } {
  const second = /^lockwright-roster: 2$/m.test(body)
  const read = readSignedBody(body, second ? secondShape : firstShape)
  if ('fault' in read) return read
  return { roster: second ? secondRoster(read.value as SecondFile) : firstRoster(read.value as FirstFile) }
}

function firstRoster(file: FirstFile): Roster {
  return {
    ...headIn(file),
    people: file.people.map((person) => ({
      id: person.id,
      name: person.name,
      key: person.key,
      revokedAt: person['revoked-at'],
      qualifications: person.qualifications.map(qualificationIn)
    }))
  }
}

function secondRoster(file: SecondFile): Roster {
  const roots = file['former-roots']
  const shiftHours = file['shift-hours']
  return {
    ...headIn(file),
    people: file.people.map(({ id, name, keys, qualifications: held }) => ({
      id,
      name,
      ...withKeys(keys.map(keyIn)),
      qualifications: held.map(qualificationIn)
    })),
    ...(roots.length === 0
      ? {}
      : { formerRoots: roots.map(({ 'ended-because': because, ...root }) => ({ ...root, because })) }),
    ...(shiftHours === undefined ? {} : { shiftHours })
  }
}

function headIn(file: Head): Pick<Roster, 'site' | 'serial' | 'signedAt' | 'root'> {
  return { site: file.site, serial: file.serial, signedAt: file['signed-at'], root: file.root }
}

function keyIn({ key, from, until, 'ended-because': because }: KeyInFile): PersonKey {
  return { key, from, until, because }
}

function qualificationIn(held: QualificationInFile): Qualification {
  return { is: held.is, validFrom: held['valid-from'], validUntil: held['valid-until'] }
}
