import type { PersonId } from '@lockwright/machine'
import type { Signer, Site } from '@lockwright/records'
import { unlockOwnKey } from './unlock-key.js'

/** A person with their private key, once the passphrase opened it. */
export async function unlockSigner(site: Site, person: string, file: string | undefined): Promise<Signer> {
  const key = await unlockOwnKey(site, person, {
    of: `passphrase of ${person}`,
    file,
    option: '--passphrase-file',
    variable: 'LOCKWRIGHT_PASSPHRASE'
  })
  return { person: person as PersonId, key }
}
