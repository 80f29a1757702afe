import { existsSync, readdirSync } from 'node:fs'
import { layout, type Site } from '../site.js'

const ending = '.jsonl'

/** Names of runs that have a journal and are not among those that have a leaf, in their order. */
export function unloggedRuns(site: Site, logged: ReadonlySet<string>): readonly string[] {
  const folder = layout.runs(site)
  if (!existsSync(folder)) return []
  const runs: string[] = []
  for (const name of readdirSync(folder)) {
    if (!name.endsWith(ending)) continue
    const run = name.slice(0, -ending.length)
    if (!logged.has(run)) runs.push(run)
  }
  return runs.sort()
}
