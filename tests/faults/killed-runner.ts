import { readFileSync, writeSync } from 'node:fs'
import { join } from 'node:path'
import type { Machine } from '@lockwright/machine'
import type { ProvedMachine } from '@lockwright/proof'
import { signerOf } from '../../packages/records/fixtures/plant.js'
import { type Disk, realDisk } from '../../packages/records/src/disk/disk.js'
import { onDisk } from '../../packages/records/src/disk/disk-in-use.js'
import type { RunId } from '../../packages/records/src/entry.js'
import { resumeRun, startRun } from '../../packages/records/src/run.js'
import { clockAfter } from './clock-after.js'
import type { Beat } from './scripted-run.js'

// Runs as a process of its own: `folder` is a site, `script.json` beside it says what to do. Opens the run `job`, or takes
// it up, and goes on with the script; a line on standard output for each entry that was acknowledged. `dies`: the number
// of the operation of the disk at which it kills itself, and whether before it or in the middle of it.
const [, , folder = '', dies = ''] = process.argv
const [at, where] = dies.split(' ')
const { machine, beats, from } = JSON.parse(readFileSync(join(folder, '..', 'script.json'), 'utf8')) as {
  readonly machine: Machine
  readonly beats: readonly Beat[]
  readonly from: string
}

let number = 0
const writes: number[] = []
const strikes = (when: string): boolean => Number(at) === number && where === when
const die = (): void => {
  process.kill(process.pid, 'SIGKILL')
}

const asked = (name: keyof Disk) =>
  function ask(...given: readonly unknown[]): unknown {
    if (strikes('before')) die()
    if (name === 'write') writes.push(number)
    if (strikes('within') && name === 'write') {
      const [handle, bytes, position] = given as Parameters<Disk['write']>
      realDisk.write(handle, bytes.subarray(0, bytes.length / 2), position)
      die()
    }
    const answer = (realDisk[name] as (...given: readonly unknown[]) => unknown)(...given)
    number += 1
    return answer
  }
const mortal = Object.fromEntries(
  Object.keys(realDisk).map((name) => [name, asked(name as keyof Disk)])
) as unknown as Disk

onDisk(mortal, () => {
  const site = { folder }
  const clock = clockAfter(folder, from)
  const proved = machine as ProvedMachine
  const there = realDisk.exists(join(folder, 'runs', 'job.jsonl'))
  const run = there
    ? resumeRun({ site, run: 'job' as RunId, machine: proved, clock })
    : startRun({ site, machine: proved, mode: 'issued', by: 'runa' as Beat['event']['by'], clock, id: 'job' })
  if (!run.ok) {
    writeSync(1, `refused ${run.faults[0].id}\n`)
    return
  }
  writeSync(1, `${run.value.entries.length}\n`)
  for (const { seconds, event, signed } of beats.slice(run.value.entries.length - 1)) {
    clock.pass(seconds)
    const taken = signed ? run.value.sign(event, signerOf(event.by)) : run.value.take(event)
    if (!taken.ok) throw new Error(JSON.stringify(taken.refusals))
    writeSync(1, `${taken.entry.seq}\n`)
  }
  run.value.close()
  writeSync(1, `operations ${[number, ...writes].join(' ')}\n`)
})
