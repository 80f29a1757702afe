import {
  type ChangeKey,
  changePassphrase,
  loseKey,
  openSite,
  type RecordsResult,
  type Roster,
  replaceRoot,
  rotateKey,
  rotateRoot,
  type Site,
  stealKey,
  systemClock,
  thumbprint,
  unlockKey
} from '@lockwright/records'
import { fromRecords } from '../from-records.js'
import { type PassphraseSource, passphrase } from '../passphrase.js'
import { sayLine, sayNote } from '../say.js'
import { unlockRoot, unlockWith } from '../unlock-key.js'
import { rosterText } from './people.js'

export interface PassphraseFlags {
  readonly site: string
  readonly passphraseFile?: string
  readonly newPassphraseFile?: string
}

export interface KeyFlags {
  readonly site: string
  /** False: make no new key. */
  readonly key?: boolean
  readonly passphraseFile?: string
  readonly rootPassphraseFile?: string
}

export interface StolenFlags extends KeyFlags {
  readonly since: string
}

export interface RootChangeFlags {
  readonly site: string
  readonly newPassphraseFile?: string
  readonly rootPassphraseFile?: string
}

export async function newPassphrase(id: string, flags: PassphraseFlags): Promise<void> {
  const site = fromRecords(openSite(flags.site))
  const source: PassphraseSource = {
    of: `passphrase of ${id}`,
    file: flags.passphraseFile,
    option: '--passphrase-file',
    variable: 'LOCKWRIGHT_PASSPHRASE'
  }
  const { secret } = await unlockWith(source, (typed) => unlockKey(site, id, typed))
  const next = await passphrase(newSource(`new passphrase of ${id}`, flags))
  fromRecords(changePassphrase({ site, owner: id, old: secret, passphrase: next }))
  sayNote(`the key of ${id} opens with the new passphrase from now on, and with the old one no more`)
}

export async function rotate(id: string, flags: KeyFlags): Promise<void> {
  await change(id, flags, rotateKey)
  sayNote(`${id} has a new key from now on; what the one before signed stays good`)
}

export async function lost(id: string, flags: KeyFlags): Promise<void> {
  await change(id, flags, loseKey)
  sayNote(`the key of ${id} signs nothing from now on; what it signed stays good`)
  sayNote(newKeyNote(id, flags))
}

export async function stolen(id: string, flags: StolenFlags): Promise<void> {
  await change(id, flags, (request) => stealKey({ ...request, since: flags.since }))
  sayNote(`what the key of ${id} signed since ${flags.since} counts for nothing`)
  sayNote(newKeyNote(id, flags))
  sayNote('`lockwright audit` of the site names every run that is concerned.')
}

export async function rotateSite(flags: RootChangeFlags): Promise<void> {
  const site = fromRecords(openSite(flags.site))
  const root = await unlockRoot(site, flags)
  const next = await passphrase(newRootSource(flags))
  tellRoot(fromRecords(rotateRoot({ site, root, passphrase: next, clock: systemClock })))
  sayNote('The key before it handed over to it: whoever knows the old thumbprint can follow. Pass the new one on.')
}

export async function loseSite(flags: RootChangeFlags): Promise<void> {
  await replace(flags, (site, next) => replaceRoot({ site, because: 'lost', passphrase: next, clock: systemClock }))
}

export async function stealSite(flags: RootChangeFlags & { readonly since: string }): Promise<void> {
  await replace(flags, (site, next) =>
    replaceRoot({ site, because: 'stolen', since: flags.since, passphrase: next, clock: systemClock })
  )
}

async function replace(
  flags: RootChangeFlags,
  make: (site: Site, next: string) => RecordsResult<Roster>
): Promise<void> {
  const site = fromRecords(openSite(flags.site))
  const next = await passphrase(newRootSource(flags))
  const roster = fromRecords(make(site, next))
  sayNote(rosterText(roster))
  sayNote('Look at every line above: the roster was signed anew as it stood.')
  tellRoot(roster)
  sayNote('Nothing vouches for it yet. Tell it to every auditor by another way than this folder.')
}

function tellRoot(roster: Roster): void {
  sayNote('The site has a new root key. Its thumbprint:')
  sayLine(thumbprint(roster.root))
}

async function change(id: string, flags: KeyFlags, make: (request: ChangeKey) => RecordsResult<Roster>): Promise<void> {
  const site = fromRecords(openSite(flags.site))
  const root = await unlockRoot(site, flags)
  const own =
    flags.key === false
      ? null
      : await passphrase({
          of: `passphrase of the new key of ${id}`,
          file: flags.passphraseFile,
          option: '--passphrase-file',
          variable: 'LOCKWRIGHT_PASSPHRASE',
          isNew: true
        })
  fromRecords(make({ site, id, passphrase: own, root, clock: systemClock }))
}

function newKeyNote(id: string, { key }: KeyFlags): string {
  return key === false ? `${id} has no key now: lockwright people rotate ${id}` : `${id} has a new key from now on`
}

function newRootSource(flags: RootChangeFlags): PassphraseSource {
  return newSource(`passphrase of the new root key of ${flags.site}`, flags)
}

function newSource(of: string, { newPassphraseFile }: { readonly newPassphraseFile?: string }): PassphraseSource {
  return {
    of,
    file: newPassphraseFile,
    option: '--new-passphrase-file',
    variable: 'LOCKWRIGHT_NEW_PASSPHRASE',
    isNew: true
  }
}
