/**
 * What the full screen costs: from a key to the frame that shows it, on a real pseudo-terminal of 80 by 24, at the median;
 * and from the start of the command to its first whole frame, against a process that only imports the terminal library,
 * as it is installed, and bundled and minified as the command is: the procedure is read and proved besides. `node tests/bench/terminal.mjs`; --enforce fails above the targets.
 */
import { spawnSync } from 'node:child_process'
import { mkdirSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { build } from 'esbuild'
import { median } from './median.mjs'

const targets = { keyMilliseconds: 50, startRatio: 1.5 }
const here = dirname(fileURLToPath(import.meta.url))
const root = join(here, '../..')
const out = join(here, 'out')
const bareImport = "import 'ink'; import 'react'"
const procedure = join(root, 'procedures/booster-pump-precharge.md')

/** `rounds`: starts; the keys are measured in `keyRuns` of them. */
export async function measureTerminal({ rounds = 15, keys = 40, keyRuns = 3 } = {}) {
  const bare = await bundleBare()
  const command = join(root, 'packages/cli/dist/lockwright.mjs')
  const step = [process.execPath, command, 'step', procedure, '--rehearse']
  const starts = []
  const floors = []
  const imports = []
  const checks = []
  const latencies = []
  keysOn(step, 0)
  spawned([bare])
  for (let round = 0; round < rounds; round++) {
    const [start, ...taken] = keysOn(step, round < keyRuns ? keys : 0)
    starts.push(start)
    latencies.push(...taken)
    floors.push(spawned([bare]))
    imports.push(spawned(['--input-type=module', '-e', bareImport], join(root, 'packages/runner-terminal')))
    checks.push(spawned([command, 'check', procedure]))
  }
  const over = (times) => median(starts.map((start, round) => start / times[round]))
  return {
    key: { median: median(latencies), worst: Math.max(...latencies), keys: latencies.length },
    start: {
      firstFrame: median(starts),
      bareImport: median(imports),
      ratio: over(imports),
      bareBundled: median(floors),
      ratioToBundled: over(floors),
      check: median(checks)
    }
  }
}

function keysOn(words, rounds) {
  const env = { PATH: process.env.PATH, HOME: process.env.HOME, TERM: 'xterm-256color' }
  const { status, stdout, stderr } = spawnSync('python3', [join(here, 'terminal-key.py'), String(rounds), ...words], {
    encoding: 'utf8',
    env
  })
  if (status !== 0) throw new Error(stderr)
  return stdout.trim().split('\n').map(Number)
}

function spawned(args, cwd = root) {
  const begin = performance.now()
  const { status } = spawnSync(process.execPath, args, { stdio: 'ignore', cwd })
  if (status !== 0) throw new Error(`node ${args.join(' ')}: exit code ${status}`)
  return performance.now() - begin
}

/** As the command itself is bundled. The library is found where the runner has it. */
async function bundleBare() {
  mkdirSync(out, { recursive: true })
  const outdir = join(out, 'bare-ink')
  await build({
    entryPoints: [join(here, 'bare-ink.mjs')],
    outdir,
    outExtension: { '.js': '.mjs' },
    splitting: true,
    nodePaths: [join(root, 'packages/runner-terminal/node_modules')],
    bundle: true,
    minify: true,
    format: 'esm',
    platform: 'node',
    target: 'node20.19',
    logLevel: 'warning',
    external: ['react-devtools-core'],
    define: { 'process.env.NODE_ENV': '"production"' },
    banner: { js: 'import{createRequire as __cr}from"node:module";const require=__cr(import.meta.url);' }
  })
  return join(outdir, 'bare-ink.mjs')
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const { key, start } = await measureTerminal()
  const ms = (value) => `${value.toFixed(1)} ms`
  process.stdout.write(
    `Key to screen, 80 x 24, ${key.keys} keys: median ${ms(key.median)}, worst ${ms(key.worst)} ` +
      `(target: median < ${targets.keyMilliseconds} ms)\n` +
      `Start of \`step --rehearse\` to its first frame: ${ms(start.firstFrame)}, of which reading and proving the procedure ` +
      `is what \`check\` costs, ${ms(start.check)} as a process of its own\n` +
      `  against a bare import of the terminal library: ${ms(start.bareImport)}, ratio ${start.ratio.toFixed(2)} ` +
      `(target: < ${targets.startRatio})\n` +
      `  against the same import bundled and minified as the command is: ${ms(start.bareBundled)}, ` +
      `ratio ${start.ratioToBundled.toFixed(2)}\n`
  )
  writeFileSync(
    join(out, 'terminal.json'),
    `${JSON.stringify({ node: process.versions.node, targets, key, start }, null, 2)}\n`
  )
  const over = key.median >= targets.keyMilliseconds || start.ratio >= targets.startRatio
  if (over) process.stdout.write('over the target\n')
  if (over && process.argv.includes('--enforce')) process.exitCode = 1
}
