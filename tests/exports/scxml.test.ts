import { spawnSync } from 'node:child_process'
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import type { Machine } from '@lockwright/machine'
import { scxmlOf } from '@lockwright/machine/exports'
import { describe, expect, it } from 'vitest'
import { machineOf } from '../end-to-end/compile-text.js'
import { type ChartWalk, chartWalks } from './chart-walks.js'
import { twoAxes } from './two-axes.js'

/** A program of ours that drives an interpreter that is not: walks in as JSON, the states where it rests out. */
interface Engine {
  readonly name: string
  readonly command: readonly [string, ...string[]]
  readonly installed: boolean
  readonly howTo: string
}

const here = fileURLToPath(new URL('.', import.meta.url))
// A hundred packages and 112 MB: too much for the lockfile, so it stands outside the workspace.
const scion = process.env['LOCKWRIGHT_SCION'] ?? join(tmpdir(), 'lockwright-scion')
// Debian's Python, for which the bindings are packaged.
const python = '/usr/bin/python3'

const engines: readonly Engine[] = [
  {
    name: '@scion-scxml/scxml 4.3.27',
    command: [process.execPath, join(here, 'walk-with-scion.mjs'), scion],
    installed: existsSync(join(scion, 'node_modules/@scion-scxml/scxml/package.json')),
    howTo: `npm install --prefix ${scion} @scion-scxml/scxml@4.3.27`
  },
  {
    name: 'the SCXML module of Qt 5.15',
    command: [python, join(here, 'walk-with-qt.py')],
    installed: spawnSync(python, ['-c', 'import PySide2.QtScxml']).status === 0,
    howTo: 'apt-get install python3-pyside2.qtscxml'
  }
]
for (const { name, installed, howTo } of engines) {
  if (!installed)
    process.stderr.write(`\n!!! SKIPPED: ${name} is not installed, so it walked nothing. To have it: ${howTo}\n\n`)
}

const folder = new URL('../../procedures/', import.meta.url)
const seeds = Array.from({ length: 20 }, (_, index) => index + 1)
const texts = [
  ...readdirSync(folder)
    .filter((name) => name.endsWith('.md') && name !== 'README.md')
    .map((name) => readFileSync(new URL(name, folder), 'utf8')),
  twoAxes
]

describe.each(engines)('$name on the exported chart', ({ command, installed }) => {
  it.runIf(installed)('takes the same events to the states of advance', () => {
    for (const text of texts) {
      const machine = machineOf(text)
      const walks = chartWalks(machine, seeds)
      expect(walkedBy(command, machine, walks)).toEqual(
        walks.map(({ first, steps }) => [first, ...steps.map(({ state }) => state)])
      )
    }
  })
})

function walkedBy(command: Engine['command'], machine: Machine, walks: readonly ChartWalk[]): unknown {
  const folder = mkdtempSync(join(tmpdir(), 'lockwright-scxml-'))
  try {
    const file = join(folder, 'chart.scxml')
    writeFileSync(file, scxmlOf(machine))
    const [program, ...args] = command
    const { status, stdout, stderr } = spawnSync(program, [...args, file], {
      input: JSON.stringify(walks.map(({ steps }) => steps.map(({ event }) => event))),
      encoding: 'utf8',
      maxBuffer: 64 * 1024 * 1024
    })
    if (status !== 0) throw new Error(stderr)
    return JSON.parse(stdout)
  } finally {
    rmSync(folder, { recursive: true })
  }
}
