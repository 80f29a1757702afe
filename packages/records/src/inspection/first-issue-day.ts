import { existsSync, readdirSync } from 'node:fs'
import { dirname } from 'node:path'
import { issuedMachine } from '../issue.js'
import { layout, type Site } from '../site.js'

/** The day on which a procedure was first issued here, `YYYY-MM-DD`; null: it never was. */
export function firstIssueDay(site: Site, procedure: string): string | null {
  const folder = dirname(layout.issued(site, ''))
  const names = existsSync(folder) ? readdirSync(folder).filter((name) => name.endsWith('.jws')) : []
  const days = names.flatMap((name) => {
    const found = issuedMachine(site, name.slice(0, -'.jws'.length))
    return found.ok && found.value.issue.procedure === procedure ? [found.value.issue.at.slice(0, 10)] : []
  })
  return days.toSorted()[0] ?? null
}
