import { existsSync, statSync } from 'node:fs'
import { join, resolve } from 'node:path'
import { makeFolderDurably } from './durable-file.js'
import { bad, good, type RecordsResult } from './result.js'

/** A site folder that was opened. */
export interface Site {
  /** Absolute path. */
  readonly folder: string
}

/** Where things lie in a site folder. `attachments/` and `log/` belong to it too. */
export const layout = {
  people: (site: Site) => join(site.folder, 'people.yaml'),
  instruments: (site: Site) => join(site.folder, 'instruments.yaml'),
  /** `owner`: `site-root`, or `person-<id>`. */
  key: (site: Site, owner: string) => join(site.folder, 'keys', `${owner}.key`),
  issued: (site: Site, digest: string) => join(site.folder, 'issued', `${digest}.json`),
  issueSignature: (site: Site, digest: string) => join(site.folder, 'issued', `${digest}.jws`),
  /** Machines that were stepped without being issued. */
  draft: (site: Site, digest: string) => join(site.folder, 'drafts', `${digest}.json`),
  runs: (site: Site) => join(site.folder, 'runs'),
  journal: (site: Site, run: string) => join(site.folder, 'runs', `${run}.jsonl`),
  /** What the clock that never runs back said in the sessions of a run; see `session-clock.ts`. */
  clock: (site: Site, run: string) => join(site.folder, 'clocks', `${run}.json`),
  /** Signed records of periodic inspections. */
  inspections: (site: Site) => join(site.folder, 'inspections'),
  tornLine: (site: Site, run: string, n: number) => join(site.folder, 'runs', `${run}.torn-${n}`)
} as const

/** Makes the folders of a site where they are missing. */
export function makeFolders(folder: string): Site {
  const site = { folder: resolve(folder) }
  for (const name of ['issued', 'drafts', 'runs', 'attachments', 'log']) {
    makeFolderDurably(join(site.folder, name))
  }
  makeFolderDurably(join(site.folder, 'keys'), 0o700)
  return site
}

/** A folder to keep records in. Without a roster it serves for drafts and rehearsals only. */
export function openSite(folder: string): RecordsResult<Site> {
  const path = resolve(folder)
  if (existsSync(path) && statSync(path).isDirectory()) return good({ folder: path })
  return bad({
    id: 'no-site',
    file: path,
    what: `There is no site folder \`${folder}\`.`,
    danger: 'Nothing can be recorded.',
    mend: 'Give the right folder, or make one with `people init`.'
  })
}
