import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { dirname } from 'node:path'
import type { Machine, PersonId } from '@lockwright/machine'
import { type Change, compare, type ProvedMachine } from '@lockwright/proof'
import { canonicalJson, readCanonical } from './canonical-json.js'
import type { Clock } from './clock.js'
import { digestPattern, sha256Hex } from './digest.js'
import { whereDiskHolds } from './disk/disk-trouble.js'
import { writeDurably } from './durable-file.js'
import type { SignatureNote } from './entry.js'
import { type IssuedPicture, lackedPicture, unsignedPicture } from './issued-pictures.js'
import { openDetached, signDetached } from './jws.js'
import { publicBytesOf } from './public-key.js'
import { bad, good, type RecordsResult } from './result.js'
import type { Roster } from './roster.js'
import { holdsAt, personOf, readRoster } from './roster-file.js'
import { everyKey, keyDoubt, tellEnd } from './roster-keys.js'
import type { Signer } from './run-types.js'
import { instant, integer, list, matching, oneOf, optional, record, word } from './shape.js'
import { layout, type Site } from './site.js'

/** Qualification that allows to issue. */
export const coordinator = 'coordinator'

/** A coordinator's signature over a machine. */
export interface Issue extends SignatureNote {
  readonly format: 'lockwright-issue/1'
  /** Digest of the machine. */
  readonly machine: string
  readonly procedure: string
  readonly revision: number
  /** Digest of the machine that was issued last of this procedure; absent where none was. */
  readonly replaces?: string
  /** Why it may ask less than the one before; there where it asks less anywhere. */
  readonly reason?: string
  /** The bytes of its pictures, by name; there where the machine names any, so that none is changed unseen. */
  readonly pictures?: readonly IssuedPicture[]
}

const issueShape = record({
  format: oneOf('lockwright-issue/1'),
  machine: matching(digestPattern, 'a digest'),
  procedure: word,
  revision: integer(0),
  by: word,
  name: word,
  at: instant,
  meaning: word,
  replaces: optional(matching(digestPattern, 'a digest')),
  reason: optional(word),
  pictures: optional(list(record({ source: word, sha256: matching(digestPattern, 'a digest') })))
})

export const issueMeaning = 'Issued for use'

export interface IssueRequest {
  readonly site: Site
  readonly machine: ProvedMachine
  /** Holds `coordinator` on that day. */
  readonly signer: Signer
  readonly clock: Clock
  /** Why it may ask less than what was issued before. */
  readonly reason?: string
  /** Each picture that the machine names, with the digest of its file; needed where it names any. */
  readonly pictures?: readonly IssuedPicture[]
}

/**
 * Signs a machine for use. Issuing what is issued already gives the signature that stands. Where it asks less than what
 * was issued last of the same procedure, a reason is needed, and the signature covers it.
 */
export function issue(request: IssueRequest): RecordsResult<Issue> {
  return whereDiskHolds(layout.people(request.site), () => issueNow(request))
}

function issueNow(request: IssueRequest): RecordsResult<Issue> {
  const { site, machine, signer } = request
  const roster = readRoster(site)
  if (!roster.ok) return roster
  const bytes = canonicalJson(machine)
  const digest = sha256Hex(bytes)
  const pictures = [...(request.pictures ?? [])].sort((one, other) => (one.source < other.source ? -1 : 1))
  const lacked = lackedPicture(machine, pictures)
  if (lacked !== null) return bad(lacked)
  const standing = readIssue(site, digest, roster.value)
  if (standing.ok) {
    // Signing anew would leave nothing of what was signed before.
    const other = unsignedPicture(standing.value, pictures)
    return other === null ? standing : bad(other)
  }
  const { at } = request.clock.now()
  const person = personOf(roster.value, signer.person)
  const key = publicBytesOf(signer.key)
  if (person === null || keyDoubt(person, key, at)?.kind === 'not-theirs') return notTheirKey(site, signer.person)
  const before = lastIssued(site, machine.procedure)
  const less = before === null ? [] : compare(before.machine, machine).changes.filter(isLess)
  const reason = request.reason?.trim() ?? ''
  const issued: Issue = {
    format: 'lockwright-issue/1',
    machine: digest,
    procedure: machine.procedure,
    revision: machine.revision,
    by: signer.person,
    name: person.name,
    at,
    meaning: issueMeaning,
    ...(before === null ? {} : { replaces: before.issue.machine }),
    ...(less.length === 0 ? {} : { reason }),
    ...(pictures.length === 0 ? {} : { pictures })
  }
  const fault = issuerFault(issued, key, roster.value)
  if (fault !== null) return notEntitled(site, fault)
  if (less.length > 0 && reason === '') return reasonNeeded(less)
  writeDurably(layout.issued(site, digest), bytes)
  const payload = canonicalJson(issued)
  const [head, , signature] = signDetached('lockwright-issue', payload, signer.key).split('.')
  const middle = Buffer.from(payload).toString('base64url')
  writeDurably(layout.issueSignature(site, digest), `${head}.${middle}.${signature}\n`)
  return good(issued)
}

export interface Issued {
  readonly machine: Machine
  readonly issue: Issue
}

/** The machine and its issue signature, both checked. It is to be proved again before it is stepped. */
export function issuedMachine(site: Site, digest: string): RecordsResult<Issued> {
  const roster = readRoster(site)
  if (!roster.ok) return roster
  const issued = readIssue(site, digest, roster.value)
  if (!issued.ok) return issued
  const machine = readMachine(layout.issued(site, digest), digest)
  return machine.ok ? good({ machine: machine.value, issue: issued.value }) : machine
}

/** What was issued last of a procedure, under a sound signature; null: nothing was. */
export function lastIssued(site: Site, procedure: string): Issued | null {
  const folder = dirname(layout.issued(site, ''))
  const names = existsSync(folder) ? readdirSync(folder).filter((name) => name.endsWith('.jws')) : []
  return names.sort().reduce<Issued | null>((last, name) => {
    const found = issuedMachine(site, name.slice(0, -'.jws'.length))
    if (!found.ok || found.value.issue.procedure !== procedure) return last
    return last === null || isLater(found.value.issue, last.issue) ? found.value : last
  }, null)
}

function isLater(one: Issue, other: Issue): boolean {
  const lead = Date.parse(one.at) - Date.parse(other.at)
  return lead > 0 || (lead === 0 && one.revision > other.revision)
}

/** A machine that was stepped without being issued. */
export function draftMachine(site: Site, digest: string): RecordsResult<Machine> {
  return readMachine(layout.draft(site, digest), digest)
}

/** The machine of a digest, issued or not. */
export function keptMachine(site: Site, digest: string): RecordsResult<Machine> {
  const issued = layout.issued(site, digest)
  return readMachine(existsSync(issued) ? issued : layout.draft(site, digest), digest)
}

/** Keeps the machine of a draft or a rehearsal, so that its record can be replayed later. */
export function keepDraft(site: Site, machine: ProvedMachine): void {
  const bytes = canonicalJson(machine)
  const file = layout.draft(site, sha256Hex(bytes))
  if (!existsSync(file)) writeDurably(file, bytes)
}

/** Whether exactly this machine was issued; else it is a DRAFT. */
export function isIssued(site: Site, machine: Machine): boolean {
  return issuedMachine(site, sha256Hex(canonicalJson(machine))).ok
}

/** The issue signature of a machine: its form, its key, and what the roster says of the signer at that time. */
export function readIssue(site: Site, digest: string, roster: Roster): RecordsResult<Issue> {
  const file = layout.issueSignature(site, digest)
  if (!digestPattern.test(digest) || !existsSync(file)) return notIssued(file)
  return parseIssue(readFileSync(file), file, digest, roster)
}

/** The same from the bytes of the signature file. */
export function parseIssue(bytes: Uint8Array, file: string, digest: string, roster: Roster): RecordsResult<Issue> {
  const content = Buffer.from(bytes).toString('utf8')
  if (!Buffer.from(content).equals(bytes)) return unsound(file, 'it is not UTF-8')
  const issued = openIssue(content, roster)
  if ('fault' in issued) return unsound(file, issued.fault)
  if (issued.value.machine !== digest) return unsound(file, 'it is over another machine')
  const fault = issuerFault(issued.value, issued.key, roster)
  return fault === null ? good(issued.value) : unsound(file, fault)
}

function openIssue(
  content: string,
  roster: Roster
): { readonly value: Issue; readonly key: string } | { readonly fault: string } {
  const [head = '', middle = '', tail = ''] = content.split('.')
  const payload = Buffer.from(middle, 'base64url').toString('utf8')
  const signature = /^([A-Za-z0-9_-]+)\n$/.exec(tail)?.[1] ?? ''
  if (content !== `${head}.${Buffer.from(payload).toString('base64url')}.${signature}\n`) {
    return { fault: 'it is not a compact JWS' }
  }
  const opened = openDetached('lockwright-issue', payload, `${head}..${signature}`, everyKey(roster))
  if (!opened.ok) return { fault: opened.why }
  const read = readCanonical(payload)
  if ('fault' in read) return read
  const fault = issueShape(read.value)
  if (fault !== null) return { fault: `it ${fault}` }
  const value = read.value as Issue
  const person = personOf(roster, value.by)
  const theirs = person !== null && keyDoubt(person, opened.key, value.at)?.kind !== 'not-theirs'
  return theirs ? { value, key: opened.key } : { fault: 'its key is not that of its signer' }
}

/** Why the signer may not have issued then; null: may. */
function issuerFault(issued: Issue, key: string, roster: Roster): string | null {
  const person = personOf(roster, issued.by)
  if (person === null) return `the roster does not know \`${issued.by}\``
  const doubt = keyDoubt(person, key, issued.at)
  if (doubt?.kind === 'ended') return `the key of \`${issued.by}\` ${tellEnd(doubt.key)}, before this was signed`
  if (doubt !== null) return `the key of \`${issued.by}\` was not in force yet when this was signed`
  if (!holdsAt(person, [coordinator], issued.at)) return `\`${issued.by}\` did not hold \`${coordinator}\` then`
  return null
}

function readMachine(file: string, digest: string): RecordsResult<Machine> {
  const bytes = existsSync(file) ? readFileSync(file) : null
  if (bytes === null || sha256Hex(bytes) !== digest) {
    return bad({
      id: 'machine-altered',
      file,
      what: bytes === null ? 'The machine is not kept here.' : 'The machine is not the one whose digest is its name.',
      danger: 'Steps may be missing or changed.',
      mend: 'Compile the procedure again from the source of that revision, and compare the digests.'
    })
  }
  return good(JSON.parse(bytes.toString('utf8')) as Machine)
}

function notIssued(file: string): RecordsResult<never> {
  return bad({
    id: 'not-issued',
    file,
    what: 'No coordinator issued exactly this machine.',
    danger: 'It may be a draft that nobody has released for this equipment.',
    mend: 'Have a coordinator issue it, or step it as a draft or a rehearsal.'
  })
}

function unsound(file: string, why: string): RecordsResult<never> {
  return bad({
    id: 'issue-unsound',
    file,
    what: `The issue signature does not hold: ${why}.`,
    danger: 'Someone who may not release procedures may have released this one.',
    mend: 'Have a coordinator look at the machine and issue it.'
  })
}

function notEntitled(site: Site, why: string): RecordsResult<never> {
  return bad({
    id: 'not-entitled',
    file: layout.people(site),
    what: `The machine was not issued: ${why}.`,
    danger: 'A procedure would be released by someone who may not.',
    mend: `Have someone who holds \`${coordinator}\` issue it.`
  })
}

function isLess({ tendency }: Change): boolean {
  return tendency === 'loosening'
}

const toldChanges = 3

function reasonNeeded(less: readonly Change[]): RecordsResult<never> {
  const more = less.length > toldChanges ? ` And ${less.length - toldChanges} more.` : ''
  return bad({
    id: 'reason-needed',
    file: '',
    what: `It asks less than the revision that is issued now: ${less
      .slice(0, toldChanges)
      .map(({ what }) => what)
      .join(' ')}${more}`,
    danger: 'A gate that someone once put there for a reason would be gone, and nobody would know why.',
    mend: 'Look at every loosening that `compare` shows, and issue it with the reason why it may ask less.'
  })
}

function notTheirKey(site: Site, person: PersonId): RecordsResult<never> {
  return bad({
    id: 'not-their-key',
    file: layout.people(site),
    what: `The key is not the one that the roster has for \`${person}\`.`,
    danger: 'The signature would bear the wrong name.',
    mend: 'Unlock the key of the person who signs.'
  })
}
