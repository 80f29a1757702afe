import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs'
import { basename, dirname, join, resolve } from 'node:path'
import { type AuditRequest, folderStore, openSite, type Store } from '@lockwright/records'
import { fromRecords } from '../from-records.js'
import { isStoreUrl, openStore } from '../open-store.js'
import { CannotRun } from '../read-input.js'

type Which = { readonly store: Store } & Pick<AuditRequest, 'run' | 'journals'>

/**
 * What is to be audited: a site folder, the address of a shared store, a journal in a site, or journals that lie elsewhere
 * on the grounds of the site that `--site` gives.
 */
export async function auditTarget(target: string, site: string | undefined): Promise<Which> {
  if (isStoreUrl(target)) return { store: await openStore(target) }
  const found = statSync(target, { throwIfNoEntry: false })
  if (found === undefined) throw new CannotRun(`cannot read ${target}: there is no such file or folder.`)
  const path = resolve(target)
  if (site !== undefined) return { store: storeOf(site), journals: journalsAt(path, found.isDirectory()) }
  if (!found.isDirectory()) {
    const above = dirname(dirname(path))
    if (basename(dirname(path)) === 'runs' && isSite(above))
      return { store: storeOf(above), run: basename(path, '.jsonl') }
    return { store: storeOf(above), journals: journalsAt(path, false) }
  }
  if (!isSite(path) && basename(path) === 'runs' && isSite(dirname(path))) return { store: storeOf(dirname(path)) }
  const journals = isSite(path) ? [] : namesIn(path)
  if (journals.length === 0) return { store: storeOf(path) }
  throw new CannotRun(
    `${target} holds journals and is no site folder: there is no roster in it to hold them against. Give --site with the site that they are from.`
  )
}

function storeOf(folder: string): Store {
  return folderStore(fromRecords(openSite(folder)))
}

function isSite(folder: string): boolean {
  return ['people.yaml', 'runs', 'issued'].some((name) => existsSync(join(folder, name)))
}

function journalsAt(path: string, isFolder: boolean): NonNullable<AuditRequest['journals']> {
  const files = isFolder ? namesIn(path).map((name) => join(path, name)) : [path]
  if (files.length === 0) throw new CannotRun(`there is no journal (*.jsonl) in ${path}.`)
  return files.map((file) => ({ file, bytes: readFileSync(file) }))
}

function namesIn(folder: string): readonly string[] {
  return readdirSync(folder)
    .filter((name) => name.endsWith('.jsonl'))
    .toSorted()
}
