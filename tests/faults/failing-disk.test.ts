import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { listRuns, type RecordsResult, type Run, type Site } from '@lockwright/records'
import { afterAll, describe, expect, it } from 'vitest'
import { type Asked, type Fault, faultyDisk, unsyncedDisk } from '../../packages/records/fixtures/faulty-disk.js'
import { inFolder, type ScriptedClock, scriptedClock } from '../../packages/records/fixtures/plant.js'
import { layDown, readFolder } from '../../packages/records/fixtures/simulated-disk.js'
import type { Disk } from '../../packages/records/src/disk/disk.js'
import { onDisk } from '../../packages/records/src/disk/disk-in-use.js'
import { counted } from './counted.js'
import { begin, issuedSite, libraryMachine, play, type Script, scriptOf, takeUp } from './scripted-run.js'

const seed = 11
const count = counted(seed)
const machine = libraryMachine('booster-pump-precharge.md')
const script: Script = onDisk(unsyncedDisk, () =>
  inFolder((folder) => scriptOf(issuedSite(folder, machine), machine, seed))
)
const codes = ['ENOSPC', 'EROFS', 'EIO'] as const
const nine = '2026-03-02T09:00:00.000Z'

interface Moody {
  readonly disk: Disk
  /** What it refuses from now on; null: nothing. */
  refuse(decide: ((asked: Asked, number: number) => Fault | null) | null): void
  /** How often it refused since. */
  struck(): number
}

function moodyDisk(): Moody {
  let decide: ((asked: Asked, number: number) => Fault | null) | null = null
  let struck = 0
  let number = 0
  const disk = faultyDisk(unsyncedDisk, (asked) => {
    const fault = decide?.(asked, number) ?? null
    number += 1
    if (fault !== null) struck += 1
    return fault
  })
  return {
    disk,
    refuse: (next) => {
      decide = next
      struck = 0
      number = 0
    },
    struck: () => struck
  }
}

function value(result: RecordsResult<Run>): Run {
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.value
}

function onSite(body: (site: Site, clock: ScriptedClock, moody: Moody) => void): void {
  inFolder((folder) => {
    const moody = moodyDisk()
    onDisk(moody.disk, () => {
      issuedSite(folder, machine)
      body({ folder }, scriptedClock(nine), moody)
    })
  })
}

afterAll(() => count.tell('A disk that refuses'))

describe('a disk that refuses in the middle of a run', () => {
  it('leaves the run where it stood, says so, and takes the answer once it works again', () => {
    onSite((site, clock, { refuse, struck }) => {
      const run = value(begin(site, machine, clock))
      for (const beat of script.beats) {
        const before = readFileSync(run.file)
        const { snapshot } = run
        const entries = [...run.entries]
        for (const code of codes) {
          for (const [at, bytes] of [
            ['write', 0],
            ['write', 1],
            ['write', 100],
            ['sync', 0],
            ['size', 0]
          ] as const) {
            refuse((asked) => (asked === at && struck() === 0 ? { code, bytes } : null))
            const taken = play(run, clock, { ...beat, seconds: 0 })
            if (taken.ok) throw new Error(`taken in spite of ${code} at a ${at}`)
            // A wait that is not over yet is refused for that, before anything is written.
            if (taken.refusals[0].kind === 'too-early') continue
            count.one(`${code} at a ${at}`)
            expect(struck(), `${code} ${at}`).toBe(1)
            expect(taken.refusals[0].kind).toBe('not-written')
            expect(taken.refusals[0].why).toContain(code)
            expect(taken.refusals[0].mend).toContain('Stay at this step')
            expect(run.snapshot).toBe(snapshot)
            expect(run.entries).toEqual(entries)
            expect(readFileSync(run.file).equals(before)).toBe(true)
          }
        }
        refuse(null)
        const taken = play(run, clock, beat)
        expect(taken.ok, JSON.stringify(taken)).toBe(true)
      }
      expect(run.snapshot.status).toBe('finished')
      run.close()
    })
  })

  it.each(['truncate', 'sync'] as const)(
    'writes nothing more where a line cannot be taken back, for its %s fails too; taken up again, the run goes on',
    (also) => {
      onSite((site, clock, { refuse, struck }) => {
        let run = value(begin(site, machine, clock))
        for (const [index, beat] of script.beats.entries()) {
          const { snapshot } = run
          refuse((asked) => {
            if (asked === 'write' && struck() === 0) return { code: 'EIO', bytes: 7 }
            return asked === also ? { code: 'EIO' } : null
          })
          clock.pass(beat.seconds)
          const refused = play(run, clock, { ...beat, seconds: 0 })
          count.one(`lines that cannot be taken back (${also})`)
          if (refused.ok) throw new Error('taken')
          expect(refused.refusals[0].why).toContain('cannot be told')
          // The disk works again: still nothing is written, for nobody knows what the file holds.
          refuse(null)
          expect(play(run, clock, { ...beat, seconds: 0 }).ok).toBe(false)
          expect(run.snapshot).toBe(snapshot)
          run.close()
          run = value(takeUp(site, machine, clock))
          expect(run.entries.length).toBe(index + 1)
          expect(run.snapshot).toEqual(snapshot)
          expect(run.setAside?.bytes ?? null).toBe(also === 'sync' ? null : 7)
          const taken = play(run, clock, { ...beat, seconds: 0 })
          expect(taken.ok, JSON.stringify(taken)).toBe(true)
        }
        expect(run.snapshot.status).toBe('finished')
        run.close()
      })
    }
  )
})

describe('a disk that refuses while a run is opened or taken up', () => {
  /** Refuses each operation in turn, for good or this once, until one try goes through with nothing refused. */
  function everyOperation(moody: Moody, body: (tell: string, struck: () => number) => void): void {
    for (const code of codes) {
      for (const lasting of [false, true]) {
        for (let at = 0; ; at += 1) {
          const strikes = (number: number): boolean => (lasting ? number >= at : number === at)
          moody.refuse((_, number) => (strikes(number) ? { code, bytes: at % 3 } : null))
          let struck = 0
          body(`${code} from operation ${at} on${lasting ? '' : ', once'}`, () => {
            struck = moody.struck()
            return struck
          })
          if (struck === 0) break
        }
      }
    }
  }

  it('opens no run, leaves nothing that looks like one, and opens it under the same name later', () => {
    onSite((site, clock, moody) => {
      const before = readFolder(site.folder)
      everyOperation(moody, (tell, struckSoFar) => {
        const run = begin(site, machine, clock)
        const struck = struckSoFar()
        moody.refuse(null)
        if (run.ok) {
          // Only what is of no account may be refused: a mark that is not taken away, say.
          run.value.close()
        } else {
          count.one('refusals to open')
          expect(struck, tell).toBeGreaterThan(0)
          expect(['disk-refused', 'not-opened'], tell).toContain(run.faults[0].id)
          expect(run.faults[0].what, tell).toContain(tell.slice(0, tell.indexOf(' ')))
          const again = begin(site, machine, clock)
          // A disk that refused to take the file away again leaves it, and the list of runs shows it: empty, or just opened.
          if (!again.ok) {
            expect(again.faults[0].id, tell).toBe('run-exists')
            const { runs, faults } = listRuns(site)
            const shown = [...runs.map(({ entries }) => `${entries} entry`), ...faults.map(({ id }) => id)]
            expect([['nothing-begun'], ['1 entry']], tell).toContainEqual(shown)
          } else again.value.close()
        }
        layDown(site.folder, before)
      })
    })
  })

  it('takes nothing up that it is not sure of, and loses nothing by it', () => {
    onSite((site, clock, moody) => {
      const run = value(begin(site, machine, clock))
      for (const beat of script.beats.slice(0, 12)) play(run, clock, beat)
      run.close()
      const whole = readFileSync(run.file)
      const torn = Buffer.concat([whole, Buffer.from('{"at":"2026-03-02T09:0')])
      for (const found of [whole, torn]) {
        const before = new Map([...readFolder(site.folder)]).set(join('runs', 'job.jsonl'), found)
        layDown(site.folder, before)
        everyOperation(moody, (tell, struck) => {
          const taken = takeUp(site, machine, clock)
          if (struck() === 0) expect(taken.ok, tell).toBe(true)
          moody.refuse(null)
          if (taken.ok) taken.value.close()
          else {
            count.one('refusals to take up')
            expect(taken.faults[0].id, tell).toBe('disk-refused')
            const again = value(takeUp(site, machine, clock))
            expect(again.entries.length).toBe(13)
            again.close()
          }
          expect(readFileSync(run.file).equals(whole), tell).toBe(true)
          const aside = readdirSync(join(site.folder, 'runs')).filter((name) => name.includes('.torn-'))
          expect(aside.length > 0, tell).toBe(found === torn)
          for (const name of aside) {
            if (name.endsWith('.new')) continue
            expect(readFileSync(join(site.folder, 'runs', name)).equals(torn.subarray(whole.length)), tell).toBe(true)
          }
          layDown(site.folder, before)
        })
      }
    })
  })
})

it('counted what was injected above', () => {
  expect(count.total()).toBeGreaterThanOrEqual(1_000)
})
