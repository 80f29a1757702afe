/**
 * `node tests/bench/spin.mjs`: our explorer beside SPIN on the same exported models. Configurations a second and memory a
 * configuration, SPIN's compile and run apart; growth by the number of sources and of states, as figures and a plot in
 * tests/bench/out. Needs the built packages, spin and gcc.
 */
import { spawnSync } from 'node:child_process'
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { cpus } from 'node:os'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { parseProcedure } from '@lockwright/language'
import { promelaOf } from '@lockwright/machine/exports'
import { compile } from '@lockwright/machine/lower'
import { plotGrowth } from './plot-growth.mjs'
import { searchOnce } from './spin-once.mjs'
import { measuredProcedure } from './spin-procedures.mjs'

const here = dirname(fileURLToPath(import.meta.url))
const out = join(here, 'out')
const procedures = join(here, '../../procedures')

if (spawnSync('spin', ['-V']).error !== undefined || spawnSync('gcc', ['--version']).error !== undefined) {
  process.stderr.write('SKIPPED: spin or gcc is not installed. On Debian: apt-get install spin gcc\n')
  process.exit(0)
}

const written = readdirSync(procedures)
  .filter((name) => name.endsWith('.md') && name !== 'README.md')
  .map((name) => measured(name, readFileSync(join(procedures, name), 'utf8'), {}))
const bySources = [1, 2, 3, 4, 6, 8, 10, 12, 14].map((sources) =>
  measured(`${sources} sources`, measuredProcedure({ sources, rounds: 1 }), { sources })
)
const byStates = [1, 2, 4, 8, 16, 32, 64].map((rounds) =>
  measured(`${rounds} rounds`, measuredProcedure({ sources: 4, rounds }), { rounds })
)

table('Procedures of the library', written)
table('Growth by sources (every question doubles the configurations)', bySources)
table('Growth by states (four sources, more rounds)', byStates)

mkdirSync(out, { recursive: true })
const about = {
  node: process.versions.node,
  cores: cpus().length,
  spin: 'spin -a, gcc -O2 -DSAFETY -DNOREDUCE, best of three runs'
}
writeFileSync(join(out, 'spin.json'), `${JSON.stringify({ ...about, written, bySources, byStates }, null, 2)}\n`)
writeFileSync(
  join(out, 'spin-growth.svg'),
  plotGrowth('Explorer and SPIN on the same models', 'milliseconds (configurations for the dotted line)', [
    { title: 'by number of sources', xLabel: 'sources', lines: linesOf(bySources, ({ sources }) => sources) },
    { title: 'by number of states', xLabel: 'states of the machine', lines: linesOf(byStates, ({ states }) => states) }
  ])
)
process.stdout.write('Figures and plot: tests/bench/out/spin.json, tests/bench/out/spin-growth.svg\n')

function measured(name, text, about) {
  const procedure = parseProcedure({ file: name, text })
  if (!procedure.ok) throw new Error(procedure.diagnostics.map(({ what }) => what).join('\n'))
  const machine = compile(procedure.value)
  if (!machine.ok) throw new Error(machine.diagnostics.map(({ what }) => what).join('\n'))
  const explored = spawnSync(process.execPath, ['--expose-gc', join(here, 'explore-once.mjs')], {
    input: JSON.stringify(machine.value),
    encoding: 'utf8'
  })
  if (explored.status !== 0) throw new Error(explored.stderr)
  const ours = JSON.parse(explored.stdout)
  const spin = searchOnce(promelaOf(machine.value), ours.configurations)
  // Figures of two searches that did not see the same would say nothing.
  if (spin.stored !== ours.configurations || spin.errors !== 0 || ours.breaches !== 0) {
    throw new Error(`${name}: ${ours.configurations} configurations, SPIN stored ${spin.stored}, errors ${spin.errors}`)
  }
  const perSecond = (time) => Math.round((ours.configurations / time) * 1000)
  return {
    name,
    ...about,
    states: machine.value.states.length,
    configurations: ours.configurations,
    explorer: {
      milliseconds: ours.milliseconds,
      configurationsPerSecond: perSecond(ours.milliseconds),
      bytesPerConfiguration: Math.round(ours.bytes / ours.configurations)
    },
    spin: {
      milliseconds: spin.milliseconds,
      configurationsPerSecond: perSecond(spin.milliseconds.run),
      bytesPerConfiguration: Math.round(spin.bytesForStates / ours.configurations),
      stateVectorBytes: spin.stateVectorBytes
    }
  }
}

function linesOf(rows, x) {
  return [
    { name: 'our explorer', dash: 'none', points: rows.map((row) => [x(row), row.explorer.milliseconds]) },
    { name: 'SPIN, run', dash: '8 4', points: rows.map((row) => [x(row), row.spin.milliseconds.run]) },
    {
      name: 'SPIN, written and compiled',
      dash: '14 4 3 4',
      points: rows.map((row) => [x(row), row.spin.milliseconds.write + row.spin.milliseconds.compile])
    },
    { name: 'configurations', dash: '2 4', points: rows.map((row) => [x(row), row.configurations]) }
  ]
}

function table(title, rows) {
  const head = [
    '',
    'states',
    'configurations',
    'explorer ms',
    'conf/s',
    'bytes/conf',
    'spin+gcc ms',
    'pan ms',
    'conf/s',
    'bytes/conf'
  ]
  const cells = rows.map(({ name, states, configurations, explorer, spin }) => [
    name,
    String(states),
    String(configurations),
    explorer.milliseconds.toFixed(1),
    String(explorer.configurationsPerSecond),
    String(explorer.bytesPerConfiguration),
    (spin.milliseconds.write + spin.milliseconds.compile).toFixed(0),
    spin.milliseconds.run.toFixed(1),
    String(spin.configurationsPerSecond),
    String(spin.bytesPerConfiguration)
  ])
  const widths = head.map((word, column) => Math.max(word.length, ...cells.map((row) => row[column].length)))
  process.stdout.write(`${title}\n`)
  for (const row of [head, ...cells]) {
    const line = row.map((cell, column) => (column === 0 ? cell.padEnd(widths[0]) : cell.padStart(widths[column])))
    process.stdout.write(`  ${line.join('  ')}\n`)
  }
  process.stdout.write('\n')
}
