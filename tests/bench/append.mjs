/**
 * `node tests/bench/append.mjs`: what an entry costs through `Run.take`, synced before it returns, beside a bare write and
 * fsync of the same bytes in the same process and the same folder; how that grows with the length of the journal (it has
 * to be flat), and what taking such a journal up again costs. Figures and a plot into tests/bench/out. A ratio over the target
 * fails only with --enforce, for a busy machine is no defect.
 */
import {
  closeSync,
  fsyncSync,
  mkdirSync,
  mkdtempSync,
  openSync,
  readFileSync,
  rmSync,
  writeFileSync,
  writeSync
} from 'node:fs'
import { cpus } from 'node:os'
import { dirname, join, relative } from 'node:path'
import { fileURLToPath } from 'node:url'
import { compileFile } from '@lockwright/cli'
import { resumeRun, startRun, systemClock } from '@lockwright/records'
import { median } from './median.mjs'
import { plotGrowth } from './plot-growth.mjs'

/** `ratio`: of an entry to its bare write and sync. `growth`: of that ratio, over the last thousand entries, to the first thousand. */
const targets = { ratio: 1.3, growth: 1.2 }
const most = 10_000
const lengths = [100, 300, 1_000, 3_000, most]
const root = join(dirname(fileURLToPath(import.meta.url)), '../..')
const out = join(root, 'tests/bench/out')
mkdirSync(out, { recursive: true })
// In the repository and not in a temporary folder, which may lie in memory and sync nothing.
const folder = mkdtempSync(join(out, 'append-'))

try {
  report(measure())
} finally {
  rmSync(folder, { recursive: true, force: true })
}

function measure() {
  const file = join(root, 'procedures/booster-pump-precharge.md')
  const checked = compileFile(relative(process.cwd(), file), readFileSync(file))
  if (checked.kind !== 'proved') throw new Error('the procedure of the demo is not proved')
  const { machine } = checked
  const site = { folder: join(folder, 'site') }
  const run = startRun({ site, machine, mode: 'draft', by: 'runa', clock: systemClock, id: 'bench' })
  if (!run.ok) throw new Error(run.faults[0].what)
  const bare = openSync(join(folder, 'site', 'runs', 'bare'), 'a')
  const times = { entry: [], bare: [] }
  const take = (text) => {
    const taken = run.value.take({ kind: 'note', text, by: 'runa' })
    if (!taken.ok) throw new Error(taken.refusals[0].why)
    return taken.entry
  }
  // As long as what was written just now; the note is of a usual length.
  const text = 'The lamp over the left door was out when we came; replaced.'
  let bytes = Buffer.from(`${JSON.stringify(take(text))}\n`)
  for (let length = 2; length < most; length += 1) {
    const jobs = [
      ['entry', () => take(text)],
      [
        'bare',
        () => {
          writeSync(bare, bytes)
          fsyncSync(bare)
        }
      ]
    ]
    // Turn and turn about, so that a busy machine slows both alike.
    for (const [name, job] of length % 2 === 0 ? jobs : jobs.toReversed()) {
      const begin = performance.now()
      const entry = job()
      times[name].push((performance.now() - begin) * 1000)
      if (entry !== undefined) bytes = Buffer.from(`${JSON.stringify(entry)}\n`)
    }
  }
  run.value.close()
  closeSync(bare)
  const window = (all, length) => median(all.slice(Math.max(0, length - 600), length))
  const ratios = times.entry.map((time, index) => time / times.bare[index])
  const begin = performance.now()
  const resumed = resumeRun({ site, run: 'bench', machine, clock: systemClock })
  const takeUp = performance.now() - begin
  if (!resumed.ok || resumed.value.entries.length !== most) throw new Error('the journal is not taken up whole')
  resumed.value.close()
  return {
    points: lengths.map((length) => ({
      length,
      entry: window(times.entry, length),
      bare: window(times.bare, length)
    })),
    ratio: median(ratios),
    growth: median(ratios.slice(-1_000)) / median(ratios.slice(0, 1_000)),
    takeUp
  }
}

function report({ points, ratio, growth, takeUp }) {
  const us = (value) => value.toFixed(0).padStart(8)
  process.stdout.write(`Node ${process.versions.node}, ${cpus().length} cores, ${cpus()[0]?.model.trim()}\n\n`)
  process.stdout.write('An entry on the disk, µs, median of the 600 before that length\n')
  process.stdout.write('   entries    entry bare write and fsync\n')
  for (const { length, entry, bare } of points) process.stdout.write(`  ${us(length)} ${us(entry)} ${us(bare)}\n`)
  process.stdout.write(`Ratio, median over all: ${ratio.toFixed(2)} (target <= ${targets.ratio})\n`)
  process.stdout.write(
    `That ratio, the last thousand to the first: ${growth.toFixed(2)} (target <= ${targets.growth})\n`
  )
  process.stdout.write(`Taking up a journal of ${most} entries: ${takeUp.toFixed(0)} ms\n`)
  const about = { node: process.versions.node, cores: cpus().length, targets }
  writeFileSync(join(out, 'append.json'), `${JSON.stringify({ ...about, ratio, growth, takeUp, points }, null, 2)}\n`)
  const line = (name, dash, key) => ({ name, dash, points: points.map((point) => [point.length, point[key]]) })
  writeFileSync(
    join(out, 'append-growth.svg'),
    plotGrowth('What an entry costs as the journal grows', 'µs', [
      {
        title: 'One entry, synced',
        xLabel: 'entries in the journal',
        lines: [line('Run.take', '', 'entry'), line('bare write and fsync of the same bytes', '6 4', 'bare')]
      }
    ])
  )
  process.stdout.write(`Figures: ${relative(process.cwd(), join(out, 'append.json'))}\n`)
  if (process.argv.includes('--enforce') && (ratio > targets.ratio || growth > targets.growth)) process.exitCode = 1
}
