import type { KeyObject } from 'node:crypto'
import { chmodSync, existsSync, readFileSync, renameSync, rmSync, statSync } from 'node:fs'
import { dirname } from 'node:path'
import { syncFolder, writeDurably } from './durable-file.js'
import { formatKeyFile, openKeyFile, publicHalfOf } from './key-file.js'
import { bad, good, type RecordsResult } from './result.js'
import { personIdPattern } from './roster.js'
import { personOf, readRoster } from './roster-file.js'
import { layout, type Site } from './site.js'

/** Name of the key file of the site itself. */
export const siteRoot = 'site-root'

const keyName = (owner: string): string => (owner === siteRoot ? siteRoot : `person-${owner}`)
const fileOf = (site: Site, owner: string): string => layout.key(site, keyName(owner))

/** Where a key waits until the roster names it: either both change or neither does, wherever a crash comes. */
const waiting = (file: string): string => `${file}.next`

export function hasKeyFile(site: Site, owner: string): boolean {
  return existsSync(fileOf(site, owner))
}

export function keyFileOf(site: Site, owner: string): string {
  return fileOf(site, owner)
}

/** Writes the key file of someone who has none. */
export function keepKey(site: Site, owner: string, key: KeyObject, passphrase: string, cost?: number): void {
  writeKey(fileOf(site, owner), owner, key, passphrase, cost)
}

/** Writes a key beside the one that is there; `settleKey` puts it in place once the roster names it. */
export function prepareKey(site: Site, owner: string, key: KeyObject, passphrase: string, cost?: number): void {
  writeKey(waiting(fileOf(site, owner)), owner, key, passphrase, cost)
}

/** Puts a key that waits in place if the roster names it by now; else takes it away. The one before it is gone then. */
export function settleKey(site: Site, owner: string): void {
  const file = fileOf(site, owner)
  const next = waiting(file)
  if (!existsSync(next)) return
  const roster = readRoster(site)
  if (!roster.ok) return
  const current = owner === siteRoot ? roster.value.root : (personOf(roster.value, owner)?.key ?? null)
  if (publicHalfOf(readFileSync(next, 'utf8')) === current) renameSync(next, file)
  else rmSync(next)
  syncFolder(dirname(file))
}

/** The same key under another passphrase: the file is replaced whole, with a salt of its own. */
export function changePassphrase(request: {
  readonly site: Site
  /** A person's id, or `site-root`. */
  readonly owner: string
  readonly old: string
  readonly passphrase: string
  readonly cost?: number
}): RecordsResult<null> {
  const { site, owner, old, passphrase, cost } = request
  const fault = passphraseFault(passphrase, owner === siteRoot ? 'the root key' : `the key of ${owner}`)
  if (fault !== null) return fault
  const key = unlockKey(site, owner, old)
  if (!key.ok) return key
  keepKey(site, owner, key.value, passphrase, cost)
  return good(null)
}

/** Opens a private key of the site folder. `owner`: a person's id, or `site-root`. */
export function unlockKey(site: Site, owner: string, passphrase: string): RecordsResult<KeyObject> {
  const file = fileOf(site, owner)
  const named = personIdPattern.test(owner)
  if (named) settleKey(site, owner)
  if (!named || !existsSync(file)) {
    return bad({
      id: 'no-key',
      file,
      what: `There is no private key of \`${owner}\` here.`,
      danger: 'Nothing was signed.',
      mend: 'Look the id up with `people list`, or use the site folder that holds the key.'
    })
  }
  if (process.platform !== 'win32' && (statSync(file).mode & 0o077) !== 0) {
    return bad({
      id: 'key-exposed',
      file,
      what: `Others than its owner may read or write the key file of \`${owner}\`.`,
      danger: 'Someone may have copied it and may be trying passphrases.',
      mend: `If nobody can have had it, set \`chmod 600 ${file}\`; else treat the key as stolen: \`people stolen\`.`
    })
  }
  return openKeyFile(readFileSync(file, 'utf8'), file, keyName(owner), passphrase)
}

/** Why a new passphrase will not do; null: it will. */
export function passphraseFault(passphrase: string, of: string): RecordsResult<never> | null {
  if ([...passphrase].length >= 8) return null
  return bad({
    id: 'passphrase-short',
    file: '',
    what: `The passphrase of ${of} has fewer than eight characters.`,
    danger: 'Whoever copies the key file could guess it.',
    mend: 'Use a longer one; several words do well.'
  })
}

function writeKey(file: string, owner: string, key: KeyObject, passphrase: string, cost?: number): void {
  writeDurably(file, formatKeyFile(keyName(owner), key, passphrase, cost), 0o600)
  // Whatever the umask took away or the file system left on.
  chmodSync(file, 0o600)
}
