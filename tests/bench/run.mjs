/**
 * `npm run bench`: prints what a check costs, warm and cold, against the bare parser, what a calculation costs against
 * its bare formula, the explorer beside SPIN where that is installed, and the paper beside bare pdfkit and its memory over
 * 150 sheets; keeps the figures in tests/bench/out. Figures over the target fail only with --enforce, because a busy machine is no defect.
 */
import { spawnSync } from 'node:child_process'
import { mkdirSync, readdirSync, writeFileSync } from 'node:fs'
import { cpus } from 'node:os'
import { dirname, join, relative } from 'node:path'
import { fileURLToPath } from 'node:url'
import { measureColdStart } from './cold-start.mjs'
import { measureEnergy } from './energy.mjs'
import { measureWholeCheck } from './whole-check.mjs'

const targets = { wholeCheck: 1.5, coldStart: 1.3 }
const root = join(dirname(fileURLToPath(import.meta.url)), '../..')
const out = join(root, 'tests/bench/out')
const files = readdirSync(join(root, 'procedures'))
  .filter((name) => name.endsWith('.md') && name !== 'README.md')
  .map((name) => relative(process.cwd(), join(root, 'procedures', name)))

const wholeCheck = files.map((file) => measureWholeCheck(file))
const coldStart = []
for (const file of files) coldStart.push(await measureColdStart(file))

const ms = (value) => (value === undefined ? '-' : value.toFixed(2))

process.stdout.write(`Node ${process.versions.node}, ${cpus().length} cores, ${cpus()[0]?.model.trim()}\n\n`)
process.stdout.write(
  `Whole check against the bare parse of the file, Markdown and YAML, warm, ms a call (target: ratio <= ${targets.wholeCheck})\n`
)
print(
  [
    'procedure',
    'verdict',
    'configurations',
    'bare Markdown',
    'bare parse',
    'language',
    'lower',
    'proof',
    'check',
    'ratio',
    'ratio to Markdown'
  ],
  wholeCheck.map(({ file, verdict, configurations, milliseconds: m, ratio, ratioToMarkdown }) => [
    file,
    verdict,
    String(configurations),
    ms(m.markdown),
    ms(m.parse),
    ms(m.language),
    ms(m.lower),
    ms(m.proof),
    ms(m.check),
    ratio.toFixed(2),
    ratioToMarkdown.toFixed(2)
  ])
)
process.stdout.write(`Cold start of \`lockwright check FILE\`, ms a process (target: ratio <= ${targets.coldStart})\n`)
print(
  ['procedure', 'node -e 0', 'bare', 'bare, bundled', 'check', 'ratio', 'ratio to bundled'],
  coldStart.map(({ file, milliseconds: m, ratio, againstBundled }) => [
    file,
    ms(m.node),
    ms(m.bare),
    ms(m.bareBundled),
    ms(m.check),
    ratio.toFixed(2),
    againstBundled.toFixed(2)
  ])
)

const energy = measureEnergy()
process.stdout.write(`${energy.count} energy calculations with interval, figures and source, µs each (no target)\n`)
print(
  ['', 'calculation', 'bare formula', 'ratio'],
  [['', energy.microseconds.calculation.toFixed(2), energy.microseconds.bare.toFixed(3), energy.ratio.toFixed(0)]]
)

mkdirSync(out, { recursive: true })
const about = { node: process.versions.node, cores: cpus().length, targets }
writeFileSync(join(out, 'whole-check.json'), `${JSON.stringify({ ...about, wholeCheck }, null, 2)}\n`)
writeFileSync(join(out, 'cold-start.json'), `${JSON.stringify({ ...about, coldStart }, null, 2)}\n`)
writeFileSync(join(out, 'energy.json'), `${JSON.stringify({ ...about, ...energy }, null, 2)}\n`)

// A process of its own: it measures memory. Where spin or gcc is missing it says so and is left out.
const spin = spawnSync(process.execPath, [join(root, 'tests/bench/spin.mjs')], { stdio: 'inherit' })
if (spin.status !== 0) {
  process.stderr.write('FAILED: the comparison with SPIN did not come to an end\n')
  process.exitCode = 1
}
// Each in a process of its own too: what others leave in memory would be measured with them.
const enforced = process.argv.includes('--enforce') ? ['--enforce'] : []
for (const paper of [
  ['paper.mjs', ...enforced],
  ['paper-memory.mjs', '150']
]) {
  const [script, ...rest] = paper
  const { status } = spawnSync(process.execPath, ['--expose-gc', join(root, 'tests/bench', script), ...rest], {
    stdio: 'inherit'
  })
  if (status === 0) continue
  process.stderr.write(`FAILED: ${script}\n`)
  process.exitCode = 1
}

// Each for itself as well: what the disk, other programs and PostgreSQL give is told apart from the rest.
for (const [name, what] of [
  ['append.mjs', 'appending to a journal'],
  ['audit.mjs', 'the audit'],
  ['store-growth.mjs', 'the growing shared store'],
  ['terminal.mjs', 'the terminal']
]) {
  process.stdout.write(`\n${what[0].toUpperCase()}${what.slice(1)}\n`)
  const enforce = process.argv.filter((word) => word === '--enforce')
  const { status } = spawnSync(process.execPath, [join(root, 'tests/bench', name), ...enforce], { stdio: 'inherit' })
  if (status === 0) continue
  process.stderr.write(`FAILED: the bench of ${what} did not come to an end, or is over its target\n`)
  process.exitCode = 1
}
process.stdout.write(`Figures: ${relative(process.cwd(), out)}\n`)

const over = [
  ...wholeCheck.filter(({ ratio }) => ratio > targets.wholeCheck),
  ...coldStart.filter(({ ratio }) => ratio > targets.coldStart)
]
if (over.length > 0) {
  process.stdout.write(`${over.length} over the target\n`)
  if (process.argv.includes('--enforce')) process.exitCode = 1
}

function print(head, rows) {
  const widths = head.map((title, column) => Math.max(title.length, ...rows.map((row) => row[column].length)))
  for (const row of [head, ...rows]) {
    const cells = row.map((cell, column) =>
      column === 0 ? cell.padEnd(widths[column]) : cell.padStart(widths[column])
    )
    process.stdout.write(`  ${cells.join('  ')}\n`)
  }
  process.stdout.write('\n')
}
