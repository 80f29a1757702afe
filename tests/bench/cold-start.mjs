/**
 * What `lockwright check FILE` costs as a whole process, against a bare script that imports the same parser and
 * parses the file. Spawns take turns; each ratio is the median over the rounds.
 */
import { spawnSync } from 'node:child_process'
import { mkdirSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { build } from 'esbuild'
import { median } from './median.mjs'

const here = dirname(fileURLToPath(import.meta.url))
const out = join(here, 'out')

/** Milliseconds a process; `ratio` against the bare script, `againstBundled` against the same script bundled and minified. */
export async function measureColdStart(file, { rounds = 21 } = {}) {
  const bareBundle = await bundleBare()
  const jobs = {
    node: ['-e', '0'],
    bare: [join(here, 'bare-parse.mjs'), file],
    bareBundled: [bareBundle, file],
    check: [join(here, '../../packages/cli/dist/lockwright.mjs'), 'check', file]
  }
  for (const args of Object.values(jobs)) spawned(args)
  const times = Object.fromEntries(Object.keys(jobs).map((name) => [name, []]))
  for (let round = 0; round < rounds; round++) {
    const order = Object.entries(jobs)
    for (const [name, args] of round % 2 === 0 ? order : order.reverse()) times[name].push(spawned(args))
  }
  const over = (floor) => median(times.check.map((time, round) => time / times[floor][round]))
  return {
    file,
    milliseconds: Object.fromEntries(Object.entries(times).map(([name, all]) => [name, median(all)])),
    ratio: over('bare'),
    againstBundled: over('bareBundled')
  }
}

async function bundleBare() {
  mkdirSync(out, { recursive: true })
  const outfile = join(out, 'bare-parse.bundle.mjs')
  await build({
    entryPoints: [join(here, 'bare-parse.mjs')],
    outfile,
    bundle: true,
    minify: true,
    format: 'esm',
    platform: 'node',
    target: 'node20.19',
    logLevel: 'warning',
    banner: { js: 'import{createRequire as __cr}from"node:module";const require=__cr(import.meta.url);' }
  })
  return outfile
}

function spawned(args) {
  const begin = performance.now()
  const { status, error } = spawnSync(process.execPath, args, { stdio: 'ignore' })
  if (error !== undefined || status === null || status > 1) {
    throw new Error(`node ${args.join(' ')} did not run: ${error?.message ?? `exit code ${status}`}`)
  }
  return performance.now() - begin
}
