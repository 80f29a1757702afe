import { openSite, signStoreLog } from '@lockwright/records'
import { fromRecords } from '../from-records.js'
import { openStore, storeUrl } from '../open-store.js'
import { sayNote } from '../say.js'
import { unlockRoot } from '../unlock-key.js'

export interface CheckpointFlags {
  readonly site: string
  readonly rootPassphraseFile?: string
}

export async function migrateStore(address: string | undefined): Promise<void> {
  const url = storeUrl(address, 'its address')
  const { migrate } = await import('@lockwright/records/postgres')
  const { name, applied } = fromRecords(await migrate(url))
  sayNote(applied.length === 0 ? `${name} is up to date` : `${name}: applied ${applied.join(', ')}`)
}

export async function signStore(address: string | undefined, flags: CheckpointFlags): Promise<void> {
  const url = storeUrl(address, 'its address')
  const site = fromRecords(openSite(flags.site))
  const root = await unlockRoot(site, flags)
  const store = await openStore(url)
  try {
    const { note, size } = fromRecords(await signStoreLog(store, root))
    sayNote(`${store.name}: signed the log of ${size} ${size === 1 ? 'leaf' : 'leaves'}; keep what follows elsewhere`)
    process.stdout.write(note)
  } finally {
    await store.close()
  }
}
