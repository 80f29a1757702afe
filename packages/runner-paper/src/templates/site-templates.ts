import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { type ReadTemplates, readTemplates } from './read-templates.js'

/** The templates in the folder `templates` of a site; none where it has no such folder. Hidden files are passed by. */
export async function siteTemplates(site: string): Promise<ReadTemplates> {
  const folder = join(site, 'templates')
  const names = listed(folder).filter((name) => !name.startsWith('.'))
  return readTemplates(new Map(names.map((name) => [join(folder, name), readFileSync(join(folder, name))])))
}

function listed(folder: string): readonly string[] {
  try {
    return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => (entry.isFile() ? [entry.name] : []))
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'ENOENT') return []
    throw error
  }
}
