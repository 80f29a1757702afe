import type { PersonId } from '@lockwright/machine'
import { type Signer, type Site, unlockKey } from '@lockwright/records'
import { fromRecords } from './from-records.js'
import { passphrase } from './passphrase.js'

/** A person with their private key, once the passphrase opened it. */
export async function unlockSigner(site: Site, person: string, file: string | undefined): Promise<Signer> {
  const secret = await passphrase({
    of: `passphrase of ${person}`,
    file,
    option: '--passphrase-file',
    variable: 'LOCKWRIGHT_PASSPHRASE'
  })
  return { person: person as PersonId, key: fromRecords(unlockKey(site, person, secret)) }
}
