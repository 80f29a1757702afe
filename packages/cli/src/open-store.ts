import { folderStore, openSite, type Store } from '@lockwright/records'
import { fromRecords } from './from-records.js'
import { CannotRun } from './read-input.js'

/** Where the address of the shared store is read from where none is given. */
export const storeVariable = 'LOCKWRIGHT_STORE'

/** Whether a target is the address of a shared store, and not a folder. */
export function isStoreUrl(target: string): boolean {
  return /^postgres(ql)?:\/\//i.test(target)
}

/** The records of a site folder, or of the shared store at an address. Whoever opens it closes it. */
export async function openStore(target: string): Promise<Store> {
  if (!isStoreUrl(target)) return folderStore(fromRecords(openSite(target)))
  const { postgresStore } = await import('@lockwright/records/postgres')
  return await postgresStore(target)
}

/** The address that was given, else that of the environment. */
export function storeUrl(given: string | undefined, option: string): string {
  const url = given ?? process.env[storeVariable] ?? ''
  if (url === '') throw new CannotRun(`no shared store was named; give ${option} or set ${storeVariable}.`)
  // Not repeated in the message: what is no address can still hold a password.
  if (!isStoreUrl(url)) throw new CannotRun('the shared store has to be given as postgres://user@host/database.')
  return url
}
