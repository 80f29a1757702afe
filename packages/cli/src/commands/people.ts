import { nearest } from '@lockwright/language'
import {
  addPerson,
  initSite,
  keysOf,
  knownQualifications,
  openSite,
  type Person,
  type PersonKey,
  type Qualification,
  qualifyPerson,
  type Roster,
  readRoster,
  revokePerson,
  type Site,
  setShift,
  systemClock,
  thumbprint
} from '@lockwright/records'
import { fromRecords } from '../from-records.js'
import { passphrase } from '../passphrase.js'
import { sayJson, sayLine, sayNote } from '../say.js'
import { rootSource, unlockRoot } from '../unlock-key.js'

interface RootFlags {
  readonly site: string
  readonly rootPassphraseFile?: string
}

export interface InitFlags extends RootFlags {
  readonly name: string
}

export interface QualifyFlags extends RootFlags {
  readonly holds?: readonly string[]
  readonly from?: string
  readonly until?: string
}

export interface AddFlags extends QualifyFlags {
  readonly name: string
  readonly key: boolean
  readonly passphraseFile?: string
}

export interface ListFlags {
  readonly site: string
  readonly trusted?: string
  readonly format: 'text' | 'json'
}

export interface RevokeFlags extends RootFlags {
  readonly from?: string
  readonly left?: true
}

export interface ShiftFlags extends RootFlags {
  readonly hours: string
}

export async function init(flags: InitFlags): Promise<void> {
  const secret = await passphrase({ ...rootSource(flags), isNew: true })
  const site = fromRecords(initSite({ folder: flags.site, name: flags.name, passphrase: secret, clock: systemClock }))
  const roster = fromRecords(readRoster(site))
  sayNote(`made the site ${flags.name} in ${flags.site}`)
  sayNote(
    'Keep the thumbprint of its root key, below, in a place of your own: with it an audit can tell the real roster.'
  )
  sayLine(thumbprint(roster.root))
}

export async function add(id: string, flags: AddFlags): Promise<void> {
  const site = fromRecords(openSite(flags.site))
  const root = await unlockRoot(site, flags)
  const own = flags.key
    ? await passphrase({
        of: `passphrase of the new key of ${id}`,
        file: flags.passphraseFile,
        option: '--passphrase-file',
        variable: 'LOCKWRIGHT_PASSPHRASE',
        isNew: true
      })
    : null
  const qualifications = held(flags)
  const known = knownToOthers(site, id)
  fromRecords(addPerson({ site, id, name: flags.name, qualifications, passphrase: own, root, clock: systemClock }))
  sayNote(`added ${id}, ${flags.name}${own === null ? ', without a key' : ''}`)
  doubtSpelling(id, flags, known)
}

export async function qualify(id: string, flags: QualifyFlags): Promise<void> {
  const site = fromRecords(openSite(flags.site))
  const root = await unlockRoot(site, flags)
  const known = knownToOthers(site, id)
  fromRecords(qualifyPerson({ site, id, qualifications: held(flags), root, clock: systemClock }))
  sayNote(`${id} holds: ${flags.holds?.join(', ') ?? 'nothing'}`)
  doubtSpelling(id, flags, known)
}

export function list(flags: ListFlags): void {
  const roster = fromRecords(readRoster(fromRecords(openSite(flags.site)), flags.trusted))
  if (flags.format === 'json') sayJson(roster)
  else sayLine(rosterText(roster))
}

export async function revoke(id: string, flags: RevokeFlags): Promise<void> {
  const site = fromRecords(openSite(flags.site))
  const root = await unlockRoot(site, flags)
  const from = flags.from ?? systemClock.now().at
  const because = flags.left === true ? 'left' : 'revoked'
  fromRecords(revokePerson({ site, id, from, because, root, clock: systemClock }))
  sayNote(`from ${from} on the key of ${id} signs nothing; what it signed before stays good`)
}

export async function shift(flags: ShiftFlags): Promise<void> {
  const site = fromRecords(openSite(flags.site))
  const root = await unlockRoot(site, flags)
  fromRecords(setShift({ site, hours: Number(flags.hours), root, clock: systemClock }))
  sayNote(`a shift has ${flags.hours} hours here: the audit tells of every lock that hung longer without a handover`)
}

function held(flags: QualifyFlags): Qualification[] {
  const validFrom = flags.from ?? systemClock.now().at.slice(0, 10)
  return (flags.holds ?? []).map((is) => ({ is, validFrom, validUntil: flags.until ?? null }))
}

function knownToOthers(site: Site, id: string): readonly string[] {
  const roster = fromRecords(readRoster(site))
  return knownQualifications(site, { ...roster, people: roster.people.filter((person) => person.id !== id) })
}

/** A qualification that is spelled otherwise than the procedures spell it qualifies nobody, and nobody would notice. */
function doubtSpelling(id: string, { holds = [] }: QualifyFlags, known: readonly string[]): void {
  for (const is of holds) {
    const [near] = known.includes(is) ? [] : nearest(is, known)
    if (near === undefined) continue
    sayNote(
      `Warning: no procedure kept here asks for \`${is}\`, and nobody else holds it. Was \`${near}\` meant? ` +
        `Then: lockwright people qualify ${id} with every --holds spelled right.`
    )
  }
}

export function rosterText(roster: Roster): string {
  const head = `${roster.site}: roster ${roster.serial}, signed ${roster.signedAt}, root key ${thumbprint(roster.root)}`
  const roots = (roster.formerRoots ?? []).map(
    ({ key, until, because }) => `  root key before: ${thumbprint(key)}, ${because} ${until}`
  )
  const shifts = roster.shiftHours === undefined ? [] : [`  a shift has ${roster.shiftHours} hours`]
  const people =
    roster.people.length === 0 ? ['Nobody is on it yet: lockwright people add'] : roster.people.map(personText)
  return [head, ...roots, ...shifts, ...people].join('\n')
}

function personText(person: Person): string {
  const keys = keysOf(person)
  const last = keys.at(-1)
  const before = keys.slice(0, -1).map((key) => `\n    key before: ${keyText(key)}`)
  const holds = person.qualifications.map(
    ({ is, validFrom, validUntil }) => `\n    ${is}, ${validFrom} to ${validUntil ?? 'further notice'}`
  )
  const key = last === undefined ? 'no key' : keyText(last)
  return `  ${person.id}  ${person.name}  (${key})${holds.join('')}${before.join('')}`
}

function keyText({ until, because }: PersonKey): string {
  if (until === null || because === null) return 'key good'
  return because === 'revoked' ? `revoked ${until}` : `${because}, signs nothing from ${until} on`
}
