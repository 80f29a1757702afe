import type { KeyObject } from 'node:crypto'
import { type RecordsResult, type Site, unlockKey } from '@lockwright/records'
import { fromRecords } from './from-records.js'
import { isTyped, type PassphraseSource, passphrase } from './passphrase.js'
import { sayNote } from './say.js'

/** Whoever has to guess shall not do it here: at a terminal a passphrase may be typed so often, elsewhere given once. */
const tries = 3

/** A private key of the site folder, once its passphrase opened it. `owner`: a person's id, or `site-root`. */
export async function unlockOwnKey(site: Site, owner: string, source: PassphraseSource): Promise<KeyObject> {
  return (await unlockWith(source, (secret) => unlockKey(site, owner, secret))).value
}

/** The passphrase and what it opened. */
export async function unlockWith<Value>(
  source: PassphraseSource,
  open: (secret: string) => RecordsResult<Value>
): Promise<{ readonly secret: string; readonly value: Value }> {
  for (let left = isTyped(source) ? tries - 1 : 0; ; left -= 1) {
    const secret = await passphrase(source)
    const opened = open(secret)
    if (opened.ok || left === 0 || opened.faults[0].id !== 'wrong-passphrase') {
      return { secret, value: fromRecords(opened) }
    }
    sayNote(`${opened.faults[0].what} It can be typed ${left === 1 ? 'once' : 'twice'} more.`)
  }
}

/** Where the passphrase of the root key of a site comes from. */
export function rootSource(flags: { readonly site: string; readonly rootPassphraseFile?: string }): PassphraseSource {
  return {
    of: `passphrase of the root key of ${flags.site}`,
    file: flags.rootPassphraseFile,
    option: '--root-passphrase-file',
    variable: 'LOCKWRIGHT_ROOT_PASSPHRASE'
  }
}

/** The root key of a site. */
export function unlockRoot(
  site: Site,
  flags: { readonly site: string; readonly rootPassphraseFile?: string }
): Promise<KeyObject> {
  return unlockOwnKey(site, 'site-root', rootSource(flags))
}
