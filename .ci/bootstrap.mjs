/**
 * Brings a fresh clone to the point where everything runs, with nothing but Node and npm on the machine:
 * fetches the pinned pnpm through npx, installs from the lockfile, and (with --build) compiles and bundles.
 * A stamp over the lockfile and the Node version makes every later call cheap.
 */
import { spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'

const root = join(dirname(fileURLToPath(import.meta.url)), '..')
const manifest = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'))
const modules = join(root, 'node_modules')
const stampFile = join(modules, '.lockwright-bootstrap')

function stop(sentence) {
  process.stderr.write(`\nlockwright: ${sentence}\n`)
  process.exit(2)
}

const [major, minor] = process.versions.node.split('.').map(Number)
if (major < 20 || (major === 20 && minor < 19)) {
  stop(
    `Node ${process.versions.node} is too old; install Node 20.19 or newer from your usual source and run this again.`
  )
}

function run(command, args, whatIsMissing) {
  const result = spawnSync(command, args, {
    cwd: root,
    stdio: ['ignore', 2, 2],
    env: { ...process.env, CI: '1' },
    shell: process.platform === 'win32'
  })
  if (result.error !== undefined || result.status !== 0) stop(whatIsMissing)
}

function install() {
  const stamp = createHash('sha256')
    .update(readFileSync(join(root, 'pnpm-lock.yaml')))
    .update(String(major))
    .digest('hex')
  // `npm install` by habit leaves its own mark and takes pnpm's links away: then everything is installed anew.
  const byNpm = existsSync(join(modules, '.package-lock.json')) || !existsSync(join(modules, '.modules.yaml'))
  if (!byNpm && existsSync(stampFile) && readFileSync(stampFile, 'utf8') === stamp) return
  if (byNpm) rmSync(modules, { recursive: true, force: true })
  process.stderr.write(`lockwright: installing the dependencies with ${manifest.packageManager} (once)\n`)
  run(
    'npx',
    ['-y', manifest.packageManager, 'install', '--frozen-lockfile'],
    'the dependencies could not be installed; npx must be on the PATH and the npm registry within reach (see the lines above).'
  )
  mkdirSync(dirname(stampFile), { recursive: true })
  writeFileSync(stampFile, stamp)
}

function build() {
  run(
    process.execPath,
    [join(root, 'node_modules/typescript/bin/tsc'), '-b', '--pretty', 'false'],
    'the packages do not compile; the lines above say where.'
  )
  run(
    process.execPath,
    [join(root, 'packages/cli/bundle.mjs')],
    'the command could not be bundled; the lines above say why.'
  )
}

install()
if (process.argv.includes('--build')) build()
