/** Records for the bench of the audit: the golden run of format version 1 over and over, each chained and signed anew. */
import { createHash } from 'node:crypto'
import { readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { canonicalJson } from '../../packages/records/dist/canonical-json.js'
import { sha256Hex } from '../../packages/records/dist/digest.js'
import { signDetached } from '../../packages/records/dist/jws.js'
import { privateKeyFrom } from '../../packages/records/dist/key-file.js'
import { formatLeaf, leafOf } from '../../packages/records/dist/log/leaf.js'
import { meaningOf } from '../../packages/records/dist/may-do.js'

const root = join(dirname(fileURLToPath(import.meta.url)), '../..')
export const goldenSite = join(root, 'packages/records/fixtures/golden-v1/site')
const golden = readFileSync(join(goldenSite, 'runs/golden.jsonl'), 'utf8')
  .split('\n')
  .slice(0, -1)
  .map((line) => JSON.parse(line))

const keys = new Map()
/** Test keys: anyone can make them from these names, so they sign nothing that counts. */
export function keyOf(name) {
  if (!keys.has(name))
    keys.set(name, privateKeyFrom(createHash('sha256').update(`lockwright test key of ${name}`).digest()))
  return keys.get(name)
}
const names = { odd: 'Odd Teig', runa: 'Runa Solvik', birk: 'Birk Amdal' }

/** Run number `n`, an hour after the one before (one machine, so one run at a time): its name, lines and bytes. `signed`: every entry bears a signature. */
export function makeRun(n, signed = false) {
  const run = `bench-${String(n).padStart(7, '0')}`
  const later = (at) => new Date(Date.parse(at) + n * 3_600_000).toISOString()
  let prev = golden[0].prev
  const entries = []
  const lines = golden.map(({ jws, ...entry }) => {
    const at = later(entry.at)
    const note =
      entry.signature !== undefined || signed
        ? { signature: { by: entry.by, name: names[entry.by], at, meaning: meaningOf(entry.event) } }
        : {}
    const payload = { ...entry, run, at, prev, ...note }
    const done =
      note.signature === undefined
        ? payload
        : { ...payload, jws: signDetached('lockwright-entry', canonicalJson(payload), keyOf(entry.by)) }
    const line = canonicalJson(done)
    entries.push(done)
    prev = sha256Hex(line)
    return line
  })
  return { run, entries, lines, bytes: Buffer.from(`${lines.join('\n')}\n`) }
}

/** The leaf of such a run, as the site log has it. */
export function leafOfRun({ entries, lines }) {
  return formatLeaf(leafOf(entries, lines.at(-1)))
}

/** A leaf of a run that is nowhere else: what an old run costs that is not read again. */
export function bareLeaf(n, like) {
  return canonicalJson({
    ...JSON.parse(like),
    run: `older-${String(n).padStart(7, '0')}`,
    head: createHash('sha256').update(`head ${n}`).digest('hex')
  })
}
