/**
 * `node --expose-gc tests/bench/paper-memory.mjs [sheets]`: a thousand sheets in one process, each with a serial of its own; heap
 * after collection and resident memory at every twentieth part, as figures and a plot in tests/bench/out. The growth from the
 * second measurement to the last is what a leak would show; what is left of it is code that the engine compiles as it goes on.
 * About two minutes; `npm run bench` does 150 sheets.
 */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { digestOf } from '@lockwright/machine'
import { printProcedure } from '@lockwright/runner-paper'
import { provedText } from './paper.mjs'
import { plotGrowth } from './plot-growth.mjs'

const here = dirname(fileURLToPath(import.meta.url))
const count = Number(process.argv[2] ?? 1000)
const every = Math.max(1, Math.floor(count / 20))
const file = 'booster-pump-precharge.md'
const machine = provedText(readFileSync(join(here, '../../procedures', file), 'utf8'), file)
const digest = digestOf(machine)
const megabytes = (bytes) => Math.round((bytes / 1024 / 1024) * 100) / 100

if (globalThis.gc === undefined) {
  process.stderr.write('Run it with node --expose-gc: the heap is measured after it was collected.\n')
  process.exit(2)
}

const points = []
const start = performance.now()
for (let sheet = 1; sheet <= count; sheet += 1) {
  await printProcedure(machine, {
    paper: 'a4',
    issue: { kind: 'draft' },
    digest,
    // A serial and a time of its own, so that nothing of one sheet serves for the next by chance.
    serial: `S-${String(sheet).padStart(6, '0')}`,
    now: new Date(Date.UTC(2027, 2, 2) + sheet * 60_000).toISOString()
  })
  if (sheet % every !== 0) continue
  globalThis.gc()
  const { heapUsed, rss, external } = process.memoryUsage()
  points.push({ sheet, heap: megabytes(heapUsed), external: megabytes(external), resident: megabytes(rss) })
}
const seconds = (performance.now() - start) / 1000

const [, settled = points[0]] = points
const last = points.at(-1)
const growth = { heap: last.heap - settled.heap, resident: last.resident - settled.resident }
process.stdout.write(
  `${count} sheets in ${seconds.toFixed(0)} s; heap ${settled.heap} MB after ${settled.sheet} sheets, ${last.heap} MB after ${last.sheet}; resident ${settled.resident} MB and ${last.resident} MB\n`
)
if (count < 1000) process.stdout.write('All thousand: node --expose-gc tests/bench/paper-memory.mjs\n')
mkdirSync(join(here, 'out'), { recursive: true })
writeFileSync(
  join(here, 'out/paper-memory.json'),
  `${JSON.stringify({ node: process.versions.node, procedure: file, sheets: count, growthInMegabytes: growth, points }, null, 2)}\n`
)
writeFileSync(
  join(here, 'out/paper-memory.svg'),
  plotGrowth(`Memory over ${count} sheets`, 'megabytes', [
    {
      title: file,
      xLabel: 'sheets printed in one process',
      lines: [
        { name: 'heap, after collection', dash: '', points: points.map(({ sheet, heap }) => [sheet, heap]) },
        { name: 'resident', dash: '6 4', points: points.map(({ sheet, resident }) => [sheet, resident]) }
      ]
    }
  ])
)
// A tenth of a heap that is allowed to breathe; a leak of one sheet in a thousand would be ten times that.
if (growth.heap > settled.heap * 0.1) {
  process.stderr.write(`The heap grew by ${growth.heap.toFixed(1)} MB.\n`)
  process.exitCode = 1
}
