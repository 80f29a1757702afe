/**
 * `node tests/bench/audit.mjs`: what an audit costs beside bare Ed25519 verification of as many signatures, in one
 * process and in turns; what both cores bring; and what an audit from a kept checkpoint costs as the store grows.
 * `--quick` measures smaller stores. Build first: it runs the compiled packages.
 */
import { verify } from 'node:crypto'
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { cpus, tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { audit, folderStore, memoryStore, signLog } from '@lockwright/records'
import { judgeRun } from '../../packages/records/dist/audit/audit-run.js'
import { evidenceOf, gather, readGrounds, readJournal } from '../../packages/records/dist/audit/evidence.js'
import { formatKept } from '../../packages/records/dist/audit/kept.js'
import { checkSignatures } from '../../packages/records/dist/audit/signatures.js'
import { whole } from '../../packages/records/dist/audit/whole.js'
import { sha256Hex } from '../../packages/records/dist/digest.js'
import { readDetached } from '../../packages/records/dist/jws.js'
import { appendLeaves } from '../../packages/records/dist/log/append-leaves.js'
import { publicBytesOf, publicKeyFrom } from '../../packages/records/dist/public-key.js'
import { bareLeaf, goldenSite, keyOf, leafOfRun, makeRun } from './audit-records.mjs'
import { median } from './median.mjs'
import { plotGrowth } from './plot-growth.mjs'

const quickly = process.argv.includes('--quick')
const target = 1.3
const clock = { now: () => ({ at: '2026-12-01T00:00:00.000Z', elapsed: 0 }) }
const say = (text) => process.stdout.write(`${text}\n`)
const grounds = readGrounds({ folder: goldenSite })

/** All that a bare verification needs, taken apart beforehand. */
function claimsOf(runs) {
  const known = new Map(['odd', 'runa', 'birk'].map((name) => [name, publicKeyFrom(publicBytesOf(keyOf(name)))]))
  return runs.flatMap(({ entries, lines }) =>
    entries.flatMap(({ jws, signature }, index) => {
      if (jws === undefined) return []
      const claim = readDetached('lockwright-entry', lines[index].replace(`"jws":"${jws}",`, ''), jws)
      return [{ input: claim.input, signature: claim.signature, key: known.get(signature.by) }]
    })
  )
}

/** Milliseconds of processor time of each job, in turns: what others do on the machine meanwhile counts little. */
function inTurns(jobs, rounds) {
  const times = Object.fromEntries(Object.keys(jobs).map((name) => [name, []]))
  for (let round = -1; round < rounds; round += 1) {
    const order = Object.entries(jobs)
    for (const [name, job] of round % 2 === 0 ? order : order.reverse()) {
      const begin = process.cpuUsage()
      job()
      const { user, system } = process.cpuUsage(begin)
      if (round >= 0) times[name].push((user + system) / 1000)
    }
  }
  return Object.fromEntries(Object.entries(times).map(([name, all]) => [name, median(all)]))
}

function measureRuns(title, signed) {
  const runs = Array.from({ length: quickly ? 60 : 200 }, (_, n) => makeRun(n, signed))
  const claims = claimsOf(runs)
  const files = runs.map(({ run, bytes }) => ({ file: `runs/${run}.jsonl`, bytes }))
  const held = (body) => () => {
    for (const { file, bytes } of files) if (!body(file, bytes)) throw new Error(`${file} is not good`)
  }
  const milliseconds = inTurns(
    {
      bare: () => {
        for (const { input, key, signature } of claims) if (!verify(null, input, key, signature)) throw new Error('bad')
      },
      read: held((file, bytes) => readJournal(file, bytes).reading.faults.length === 0),
      whole: held((file, bytes) => whole(gather(grounds, file, bytes)).found.length === 0),
      five: held((file, bytes) => {
        const journal = readJournal(file, bytes)
        const evidence = evidenceOf(grounds, journal, checkSignatures(journal.reading, grounds.roster.value))
        return judgeRun(grounds, evidence, { stories: false }).answer === 'good'
      })
    },
    quickly ? 5 : 9
  )
  const ratio = { whole: milliseconds.whole / milliseconds.bare, five: milliseconds.five / milliseconds.bare }
  const per = (value) => ((value * 1000) / runs.length).toFixed(0)
  say(
    `${title}: ${runs.length} runs of ${runs[0].lines.length} entries, ${claims.length / runs.length} signatures each; µs of processor time a run, one core`
  )
  say(
    `  bare verification ${per(milliseconds.bare)}; reading and chain ${per(milliseconds.read)}; whole ${per(milliseconds.whole)}; all five questions ${per(milliseconds.five)}`
  )
  say(`  whole to bare ${ratio.whole.toFixed(2)} (target ${target}); five to bare ${ratio.five.toFixed(2)}\n`)
  return { title, runs: runs.length, entries: runs[0].lines.length, signatures: claims.length, milliseconds, ratio }
}

/** The asynchronous audit of a store, whose signatures go to the threads of Node, beside the same work one after the other. */
async function measureCores(signed) {
  const runs = Array.from({ length: quickly ? 60 : 300 }, (_, n) => makeRun(n, signed))
  const store = await storeOf(runs)
  const alone = []
  const beside = []
  for (let round = -1; round < (quickly ? 3 : 5); round += 1) {
    let begin = performance.now()
    const report = await audit({ store, clock, stories: false })
    const all = performance.now() - begin
    begin = performance.now()
    for (const { run, bytes } of runs) {
      const journal = readJournal(`runs/${run}.jsonl`, bytes)
      judgeRun(grounds, evidenceOf(grounds, journal, checkSignatures(journal.reading, grounds.roster.value)), {
        stories: false
      })
    }
    const same = performance.now() - begin
    if (report.runs.length !== runs.length || report.runs.some(({ answer }) => answer !== 'good'))
      throw new Error('not good')
    if (round >= 0) {
      alone.push(same)
      beside.push(all)
    }
  }
  const gain = median(alone) / median(beside)
  say(
    `Both cores, all five questions, ${signed ? 'every entry signed' : 'as the golden run'}: one after the other ${median(alone).toFixed(0)} ms, audit of the store ${median(beside).toFixed(0)} ms: ${gain.toFixed(2)} times as fast, on ${cpus().length} cores`
  )
  return { signed, milliseconds: { alone: median(alone), beside: median(beside) }, gain }
}

async function storeOf(runs) {
  const store = memoryStore()
  const from = folderStore({ folder: goldenSite })
  await store.supersede('people.yaml', await from.signed('people.yaml'))
  for (const { path } of await from.documents('issued')) await store.keep(path, await from.document(path))
  for (const { run, lines } of runs) {
    const appended = await store.append(run, 1, lines)
    if (appended.kind !== 'appended') throw new Error(JSON.stringify(appended))
  }
  for (const run of runs) await store.addLeaf(leafOfRun(run))
  return store
}

/**
 * A site folder with so many older runs, of which there are the leaves and journals that nobody opens, and some new ones;
 * audited from a checkpoint over the older ones, and beside that the new ones alone.
 */
async function measureStore(older, fresh) {
  const folder = mkdtempSync(join(tmpdir(), 'lockwright-bench-audit-'))
  try {
    const site = { folder }
    cpSync(goldenSite, folder, { recursive: true })
    rmSync(join(folder, 'runs'), { recursive: true })
    rmSync(join(folder, 'log'), { recursive: true, force: true })
    for (const name of ['runs', 'log', 'keys']) mkdirSync(join(folder, name), { recursive: true })
    const like = leafOfRun(fresh[0])
    const leaves = Array.from({ length: older }, (_, n) => JSON.parse(bareLeaf(n, like)))
    for (const { run } of leaves) writeFileSync(join(folder, 'runs', `${run}.jsonl`), '')
    if (!appendLeaves(site, leaves).ok) throw new Error('no leaves')
    const signed = signLog(site, keyOf('root'))
    if (!signed.ok) throw new Error(JSON.stringify(signed.faults))
    for (const { run, bytes } of fresh) writeFileSync(join(folder, 'runs', `${run}.jsonl`), bytes)
    if (
      !appendLeaves(
        site,
        fresh.map((run) => JSON.parse(leafOfRun(run)))
      ).ok
    )
      throw new Error('no leaves')
    const store = folderStore(site)
    // As `audit --keep` writes it; to make it so here, journals of all older runs would have to be audited.
    const kept = formatKept({
      format: 'lockwright-kept/1',
      at: '2026-11-01T00:00:00.000Z',
      checkpoint: signed.value.note,
      answers: { good: older, findings: 0, cannotTell: 0 },
      signed: { 'people.yaml': { serial: 1, sha256: sha256Hex(readFileSync(join(folder, 'people.yaml'))) } },
      runs: leaves.map(({ run }) => run),
      locks: [],
      sheets: []
    })
    const from = (checkpoint) => ({ store, clock, stories: false, checkpoint, newOnly: true })
    const times = { kept: [], checkpoint: [], fresh: [] }
    const alone = folderStore({ folder: await aloneFolder(fresh, folder) })
    for (let round = -1; round < (quickly ? 3 : 7); round += 1) {
      const [quick, least] = await timed(() => audit(from(kept)))
      const [report, whole] = await timed(() => audit(from(signed.value.note)))
      const [same, only] = await timed(() => audit({ store: alone, clock, stories: false }))
      for (const { runs, general } of [quick, report, same]) {
        if (runs.length !== fresh.length) throw new Error('other runs')
        if (general[0].answer !== 'good') throw new Error(JSON.stringify(general[0].findings))
      }
      if (quick.asked.covered?.runs !== older || quick.asked.covered.kept === null) throw new Error('not covered')
      if (report.asked.covered?.runs !== older) throw new Error('not covered')
      if (round >= 0) {
        times.kept.push(least)
        times.checkpoint.push(whole)
        times.fresh.push(only)
      }
    }
    return {
      older,
      fresh: fresh.length,
      milliseconds: { kept: median(times.kept), checkpoint: median(times.checkpoint), fresh: median(times.fresh) }
    }
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

/** What it gave, and the milliseconds of processor time that it took on all cores together. */
async function timed(job) {
  const begin = process.cpuUsage()
  const result = await job()
  const { user, system } = process.cpuUsage(begin)
  return [result, (user + system) / 1000]
}

/** The new runs in a site of their own, with a log of their own, inside the folder that is removed afterwards. */
async function aloneFolder(fresh, folder) {
  const site = { folder: join(folder, 'alone') }
  cpSync(goldenSite, site.folder, { recursive: true })
  rmSync(join(site.folder, 'runs'), { recursive: true })
  for (const name of ['runs', 'log']) mkdirSync(join(site.folder, name), { recursive: true })
  for (const { run, bytes } of fresh) writeFileSync(join(site.folder, 'runs', `${run}.jsonl`), bytes)
  if (
    !appendLeaves(
      site,
      fresh.map((run) => JSON.parse(leafOfRun(run)))
    ).ok
  )
    throw new Error('no leaves')
  return site.folder
}

say(`Node ${process.versions.node}, ${cpus().length} cores, ${cpus()[0]?.model.trim()}\n`)
const perRun = [measureRuns('As the golden run', false), measureRuns('Every entry signed', true)]
const cores = [await measureCores(false), await measureCores(true)]
const sizes = quickly ? [300, 1000, 3000] : [1000, 3000, 10_000, 30_000, 100_000]
const fresh = Array.from({ length: quickly ? 100 : 500 }, (_, n) => makeRun(n))
say(
  `\nAudit from what was kept, ${fresh.length} new runs, a site folder (older runs: their leaves, and journals that are not opened; processor time)`
)
const growth = []
for (const older of sizes) {
  const measured = await measureStore(older, fresh)
  const { kept, checkpoint, fresh: only } = measured.milliseconds
  const each = (value) => `${(((value - only) * 1000) / older).toFixed(1)} µs an older run`
  say(
    `  ${String(older).padStart(6)} older runs: from the file of --keep ${kept.toFixed(0)} ms (${each(kept)}); from the checkpoint alone ${checkpoint.toFixed(0)} ms (${each(checkpoint)}); the new ones with none before ${only.toFixed(0)} ms; ratio ${(kept / only).toFixed(2)}`
  )
  growth.push({ ...measured, ratio: kept / only })
}

const out = join(dirname(fileURLToPath(import.meta.url)), 'out')
mkdirSync(out, { recursive: true })
const about = { node: process.versions.node, cores: cpus().length, target }
writeFileSync(join(out, 'audit.json'), `${JSON.stringify({ ...about, perRun, cores, growth }, null, 2)}\n`)
writeFileSync(
  join(out, 'audit-growth.svg'),
  plotGrowth('Audit of a growing store from a kept checkpoint', 'milliseconds of processor time', [
    {
      title: `${fresh.length} new runs each time`,
      xLabel: 'older runs, covered by the checkpoint',
      lines: [
        {
          name: 'audit from the file of --keep',
          dash: 'none',
          points: growth.map(({ older, milliseconds }) => [older, milliseconds.kept])
        },
        {
          name: 'audit from the checkpoint alone',
          dash: '2 3',
          points: growth.map(({ older, milliseconds }) => [older, milliseconds.checkpoint])
        },
        {
          name: 'audit of the new runs alone',
          dash: '5 4',
          points: growth.map(({ older, milliseconds }) => [older, milliseconds.fresh])
        }
      ]
    }
  ])
)
say(`\nFigures: ${join(out, 'audit.json')}, ${join(out, 'audit-growth.svg')}`)
const over = perRun.filter(({ ratio }) => ratio.whole > target)
if (over.length > 0) say(`Over the target for \`whole\`: ${over.map(({ title }) => title).join('; ')}`)
if (process.argv.includes('--enforce') && over.length > 0) process.exitCode = 1
