import type { KeyObject } from 'node:crypto'
import type { PersonId } from '@lockwright/machine'
import { parseDocument, stringify } from 'yaml'
import { openDetached, signDetached } from './jws.js'
import { publicKeyFrom, thumbprint } from './public-key.js'
import { bad, good, type RecordsResult } from './result.js'
import { date, instant, integer, list, matching, nullOr, record, type Shape, text, word } from './shape.js'

/** Held from the start of the first day to the end of the last, both in UTC. */
export interface Qualification {
  /** Spelled as in a role's `holds`, e.g. `electrical-lv`. `coordinator` allows to issue. */
  readonly is: string
  /** `YYYY-MM-DD` */
  readonly validFrom: string
  /** `YYYY-MM-DD`; null: until further notice. */
  readonly validUntil: string | null
}

export interface Person {
  readonly id: PersonId
  readonly name: string
  /** Ed25519 public key, base64url of its 32 bytes; null: this person signs nothing here. */
  readonly key: string | null
  /** RFC 3339; what the key signed before stays good. */
  readonly revokedAt: string | null
  readonly qualifications: readonly Qualification[]
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
}

/** Letters, digits, `-`, `_` and `+`, as for every id. */
export const personIdPattern = /^[A-Za-z0-9][A-Za-z0-9_+-]{0,63}$/

const publicKey: Shape = (value) =>
  typeof value === 'string' && publicKeyFrom(value) !== null ? null : 'is not an Ed25519 public key in base64url'

const fileShape = record({
  'lockwright-roster': (value) => (value === 1 ? null : 'is not version 1'),
  site: text,
  serial: integer(1),
  'signed-at': instant,
  root: publicKey,
  people: list(
    record({
      id: matching(personIdPattern, 'an id'),
      name: text,
      key: nullOr(publicKey),
      'revoked-at': nullOr(instant),
      qualifications: list(record({ is: word, 'valid-from': date, 'valid-until': nullOr(date) }))
    })
  )
})

interface RosterFile {
  readonly site: string
  readonly serial: number
  readonly 'signed-at': string
  readonly root: string
  readonly people: readonly (Omit<Person, 'revokedAt' | 'qualifications'> & {
    readonly 'revoked-at': string | null
    readonly qualifications: readonly {
      readonly is: string
      readonly 'valid-from': string
      readonly 'valid-until': string | null
    }[]
  })[]
}

/** The text of `people.yaml`: the roster, and as its last line the root key's signature over all bytes before. */
export function formatRoster(roster: Roster, root: KeyObject): string {
  const body = stringify(
    {
      'lockwright-roster': 1,
      site: roster.site,
      serial: roster.serial,
      'signed-at': roster.signedAt,
      root: roster.root,
      people: roster.people.map((person) => ({
        id: person.id,
        name: person.name,
        key: person.key,
        'revoked-at': person.revokedAt,
        qualifications: person.qualifications.map((held) => ({
          is: held.is,
          'valid-from': held.validFrom,
          'valid-until': held.validUntil
        }))
      }))
    },
    { lineWidth: 0 }
  )
  return `${body}signature: ${signDetached('lockwright-roster', body, root)}\n`
}

/**
 * The roster of a `people.yaml`, only if its signature is that of its root key, and that key is the one the caller
 * knows (`trusted`: its base64url or its thumbprint), where one is given.
 */
export function parseRoster(bytes: Uint8Array, file: string, trusted?: string): RecordsResult<Roster> {
  const content = Buffer.from(bytes).toString('utf8')
  const match = /^(.*\n)signature: ([A-Za-z0-9._-]+)\n$/s.exec(content)
  if (match === null || !Buffer.from(content).equals(bytes)) return unsound(file, 'It does not end in a signature.')
  const [, body = '', signature = ''] = match
  const root = /^root: ([A-Za-z0-9_-]{43})$/m.exec(body)?.[1] ?? ''
  if (trusted !== undefined && trusted !== root && trusted !== thumbprint(root)) {
    return unsound(file, `Its root key ${thumbprint(root)} is not the one that was given.`)
  }
  const opened = openDetached('lockwright-roster', body, signature, [root])
  if (!opened.ok) return unsound(file, `Its signature does not hold: ${opened.why}.`)
  const read = readBody(body)
  if ('fault' in read) return unsound(file, read.fault)
  return read.file.root === root ? good(rosterOf(read.file)) : unsound(file, 'It names two root keys.')
}

function readBody(body: string): { readonly file: RosterFile } | { readonly fault: string } {
  const document = parseDocument(body)
  if (document.errors.length > 0) return { fault: `It is not YAML: ${document.errors[0]?.message ?? ''}` }
  const value: unknown = document.toJS({ maxAliasCount: 0 })
  const fault = fileShape(value)
  return fault === null ? { file: value as RosterFile } : { fault: `In it, ${fault}.` }
}

function rosterOf(file: RosterFile): Roster {
  return {
    site: file.site,
    serial: file.serial,
    signedAt: file['signed-at'],
    root: file.root,
    people: file.people.map((person) => ({
      id: person.id,
      name: person.name,
      key: person.key,
      revokedAt: person['revoked-at'],
      qualifications: person.qualifications.map((held) => ({
        is: held.is,
        validFrom: held['valid-from'],
        validUntil: held['valid-until']
      }))
    }))
  }
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
