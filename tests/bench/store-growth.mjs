/**
 * What the audit asks of a shared store, at 1,000, 10,000 and 100,000 runs: the median of each question, asked through
 * the store as the audit asks it, and how much dearer it is at the most runs than at the fewest. What a question asks for
 * stays as much; see tests/postgres/fill.sql. Figures and a plot go to tests/bench/out. `--enforce` fails above the
 * target. Needs the built packages and a PostgreSQL from Debian; without one it says so and measures nothing.
 */
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { dirname, join, relative } from 'node:path'
import { fileURLToPath, pathToFileURL } from 'node:url'
import { migrate, postgresStore } from '@lockwright/records/postgres'
import { buildSync } from 'esbuild'
import { median } from './median.mjs'
import { plotGrowth } from './plot-growth.mjs'

const here = dirname(fileURLToPath(import.meta.url))
const out = join(here, 'out')
const sizes = [1_000, 10_000, 100_000]
const rounds = 61
const choices = 20
/** At 100 times the runs; an index over them is one or two pages deeper then. */
const target = 2

const { postgresPrograms, startServer } = await serverModule()
if (postgresPrograms === null) {
  process.stdout.write(
    'PostgreSQL is not installed (apt-get install postgresql): the growth of the store was not measured\n'
  )
} else await measure()

async function measure() {
  const server = await startServer()
  const stores = []
  try {
    for (const runs of sizes) stores.push({ runs, ...(await filledStore(server, runs)) })
    const figures = stores.map(({ runs, filled }) => ({ runs, filled, milliseconds: {} }))
    const asked = stores.map(({ store, runs }) => questions(store, runs))
    for (const [number, [question]] of asked[0].entries()) {
      const medians = await mediansOf(asked.map((list) => list[number][1]))
      for (const [at, milliseconds] of medians.entries()) figures[at].milliseconds[question] = milliseconds
    }
    report(figures)
  } finally {
    for (const { store } of stores) await store.close()
    await server.stop()
  }
}

async function filledStore(server, runs) {
  const database = `runs_${runs}`
  server.create(database)
  const url = server.url(database)
  const made = await migrate(url)
  if (!made.ok) throw new Error(made.faults[0].what)
  const begun = performance.now()
  server.sql(database, `\\set runs ${runs}\n${readFileSync(join(here, '../postgres/fill.sql'), 'utf8')}`)
  return { filled: performance.now() - begun, store: await postgresStore(url) }
}

/** Asked in turn of twenty different runs, equipments or people, spread over all of them. */
function questions(store, runs) {
  let turn = 0
  const some = (amount) => {
    turn += 1
    return 1 + Math.floor(((turn % choices) * (amount - 1)) / choices)
  }
  const nameOf = (n) => `run-${String(n).padStart(7, '0')}`
  const since = new Date(Date.UTC(2026, 0, 1) + (runs - 50) * 3_600_000).toISOString()
  return [
    ['open runs', () => store.runs({ open: true })],
    ['hanging locks', () => store.runs({ hanging: true })],
    ['runs since', () => store.runs({ since })],
    ['runs of an equipment', () => store.runs({ equipment: `E-${some(runs / 20 - 1)}` })],
    ['runs of a person', () => store.runs({ person: `person-${some(runs / 20 - 1)}` })],
    ['runs of a procedure', () => store.runs({ procedure: `P${some(runs / 20 - 1)}` })],
    ['journal of a run', () => store.journal(nameOf(some(runs)))],
    ['heads of 50 runs', () => store.heads(Array.from({ length: 50 }, () => nameOf(some(runs))))],
    ['sheets out', () => store.sheetsOut()],
    ['new leaves of the log', () => store.leaves(runs - 75)],
    ['tile of the log', () => store.tile({ level: 0, index: some(Math.floor((runs - 25) / 256)) - 1, width: 256 })]
  ]
}

/** In turns, so that whatever else the machine does meets all sizes alike; with the pages in memory that are asked for. */
async function mediansOf(asks) {
  for (const ask of asks) for (let warm = 0; warm < 2 * choices; warm += 1) await ask()
  const times = asks.map(() => [])
  for (let round = 0; round < rounds; round += 1) {
    for (const [at, ask] of asks.entries()) {
      const begun = performance.now()
      await ask()
      times[at].push(performance.now() - begun)
    }
  }
  return times.map(median)
}

function report(figures) {
  const [fewest, most] = [figures[0], figures.at(-1)]
  const asked = Object.keys(fewest.milliseconds)
  const ratios = Object.fromEntries(asked.map((one) => [one, most.milliseconds[one] / fewest.milliseconds[one]]))
  process.stdout.write(
    `What the audit asks of PostgreSQL, median of ${rounds}, ms (target: at ${most.runs.toLocaleString('en')} runs <= ${target} times what it is at ${fewest.runs.toLocaleString('en')})\n`
  )
  const rows = [
    ['question', ...figures.map(({ runs }) => runs.toLocaleString('en')), 'ratio'],
    ...asked.map((one) => [
      one,
      ...figures.map(({ milliseconds }) => milliseconds[one].toFixed(2)),
      ratios[one].toFixed(2)
    ])
  ]
  for (const [first, ...cells] of rows) {
    process.stdout.write(`  ${first.padEnd(24)}${cells.map((cell) => cell.padStart(10)).join('')}\n`)
  }
  mkdirSync(out, { recursive: true })
  writeFileSync(join(out, 'store-growth.json'), `${JSON.stringify({ rounds, target, figures, ratios }, null, 2)}\n`)
  const dashes = ['', '6 3', '2 2', '8 3 2 3', '12 4']
  const panel = (title, names) => ({
    title,
    xLabel: 'runs in the store',
    lines: names.map((name, index) => ({
      name,
      dash: dashes[index % dashes.length],
      points: figures.map(({ runs, milliseconds }) => [runs, milliseconds[name]])
    }))
  })
  const lists = asked
    .filter((one) => one.startsWith('runs ') || one === 'open runs' || one === 'hanging locks')
    .slice(0, 5)
  const rest = asked.filter((one) => !lists.includes(one)).slice(-5)
  writeFileSync(
    join(out, 'store-growth.svg'),
    plotGrowth('Questions of the audit to PostgreSQL', 'ms, median', [
      panel('Lists of runs', lists),
      panel('One run, sheets and log', rest)
    ])
  )
  process.stdout.write(`Figures: ${relative(process.cwd(), out)}/store-growth.json and .svg\n`)
  const over = asked.filter((one) => ratios[one] > target)
  if (over.length === 0) return
  process.stdout.write(`Over the target: ${over.join(', ')}\n`)
  if (process.argv.includes('--enforce')) process.exitCode = 1
}

/** The server of the tests is written in TypeScript. */
async function serverModule() {
  const folder = mkdtempSync(join(here, 'out-'))
  try {
    const outfile = join(folder, 'server.mjs')
    buildSync({ entryPoints: [join(here, '../postgres/server.ts')], outfile, format: 'esm', platform: 'node' })
    return await import(pathToFileURL(outfile).href)
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}
