import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { type ScriptedClock, scriptedClock } from '../../packages/records/fixtures/plant.js'

/** The clock of a process that takes the run `job` up: time went on since the last entry that stands whole. */
export function clockAfter(folder: string, from: string): ScriptedClock {
  const file = join(folder, 'runs', 'job.jsonl')
  const whole = existsSync(file) ? readFileSync(file, 'utf8').split('\n').slice(0, -1) : []
  const last = whole.findLast((line) => line.startsWith('{') && line.endsWith('}'))
  return scriptedClock(last === undefined ? from : (JSON.parse(last) as { readonly at: string }).at)
}
