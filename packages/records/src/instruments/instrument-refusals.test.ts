import { readFileSync, writeFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import {
  enterFromSheet,
  fanJob,
  inFolder,
  keyOf,
  person,
  plantSite,
  type ScriptedClock,
  scriptedClock,
  signerOf,
  walk
} from '../../fixtures/plant.js'
import { quantity, ratedFan, tester, writeInstruments } from '../../fixtures/rated-fan.js'
import { gather, readGrounds } from '../audit/evidence.js'
import { fit } from '../audit/fit.js'
import type { BareEvent } from '../entry.js'
import { issue } from '../issue.js'
import { startRun } from '../run.js'
import type { Run, Taken } from '../run-types.js'
import { layout, type Site } from '../site.js'
import type { Instrument } from './instrument.js'
import { formatInstruments } from './instruments-text.js'

interface Stage {
  readonly site: Site
  readonly clock: ScriptedClock
  readonly run: Run
  /** Reads both conductors with the named instruments. */
  readonly read: (mains: string | undefined, dc: string | undefined, volts?: number) => readonly string[]
}

const told = (taken: Taken): string => (taken.ok ? '' : taken.refusals.map(({ kind }) => kind).join(' '))
const readingAt = fanJob.findIndex(({ event }) => event.kind === 'reading')

/** The fan job before the first reading, with these instruments on the list of the site; null: without a list. */
function beforeReading(
  instruments: readonly Instrument[] | null,
  body: (stage: Stage) => void,
  mode: 'issued' | 'draft' | 'rehearsal' = 'issued'
): void {
  inFolder((folder) => {
    const site = plantSite(folder)
    const clock = scriptedClock()
    if (instruments !== null) writeInstruments(site, instruments)
    issue({ site, machine: ratedFan, signer: signerOf('birk'), clock })
    const run = startRun({ site, machine: ratedFan, mode, by: person('odd'), clock, id: 'fan' })
    if (!run.ok) throw new Error(JSON.stringify(run.faults))
    walk(run.value, clock, fanJob.slice(0, readingAt))
    const take = (input: string, value: number, instrument: string | undefined): string => {
      const named = instrument === undefined ? {} : { instrument }
      const event = { kind: 'reading', state: 'prove-dead', input, value, typed: `${value} V`, ...named }
      return told(run.value.take({ ...(event as BareEvent), by: person('runa') }))
    }
    body({
      site,
      clock,
      run: run.value,
      read: (mains, dc, volts = 0) => [take('L1-L2', 0, mains), take('DC', volts, dc)]
    })
    run.value.close()
  })
}

/** The prove step left, and the job done to its end. */
const goOn = ({ run, clock }: Stage): Taken | null => walk(run, clock, fanJob.slice(readingAt + 2))
const leave = ({ run, clock }: Stage): string => {
  const taken = walk(run, clock, fanJob.slice(readingAt + 2, readingAt + 3))
  return taken === null ? '' : told(taken)
}
const fitOf = (site: Site): readonly string[] => {
  const file = layout.journal(site, 'fan')
  const { found } = fit(gather(readGrounds(site), file, readFileSync(file)))
  return found.map(({ weight, id, seq }) => `${weight} ${id} ${seq}`)
}

describe('an issued run, as it happens', () => {
  it('asks which instrument it was where the site keeps a list, and takes one that fits', () => {
    beforeReading([tester('VT-7')], (stage) => {
      expect(stage.read(undefined, 'VT-8')).toEqual(['instrument', 'instrument'])
      expect(stage.run.snapshot.progress.readings).toEqual({})
      expect(stage.read('VT-7', 'VT-7')).toEqual(['', ''])
      expect(goOn(stage)?.ok).toBe(true)
      expect(fitOf(stage.site)).toEqual([])
    })
  })

  it('without a list takes readings as ever, and the audit asks for the list only where an instrument is named', () => {
    beforeReading(null, (stage) => {
      expect(stage.read(undefined, 'whatever')).toEqual(['', ''])
      expect(goOn(stage)?.ok).toBe(true)
      expect(fitOf(stage.site)).toEqual([`doubt instruments-missing ${readingAt + 3}`])
    })
    beforeReading(null, (stage) => {
      expect(stage.read(undefined, undefined)).toEqual(['', ''])
      expect(goOn(stage)?.ok).toBe(true)
      expect(fitOf(stage.site)).toEqual([])
    })
  })

  it('refuses what is withdrawn, out of calibration, too weak or of the wrong kind', () => {
    const past = [{ from: '2025-01-01', until: '2025-12-31', certificate: null }]
    const list = [
      tester('GONE', { withdrawn: { from: '2026-03-02', why: 'Cracked' } }),
      tester('OLD', { calibrations: past }),
      tester('WEAK', { ratings: [{ category: 'II', upTo: quantity('300 V') }] }),
      tester('GAUGE', { measures: 'pressure' }),
      tester('LATER', { withdrawn: { from: '2026-03-03', why: 'Cracked' } })
    ]
    beforeReading(list, ({ read }) => {
      for (const id of ['GONE', 'OLD', 'WEAK', 'GAUGE'])
        expect([id, ...read(id, id)]).toEqual([id, 'instrument', 'instrument'])
      expect(read('LATER', 'LATER')).toEqual(['', ''])
    })
  })

  it('records no reading that the accuracy of the tester makes none, so that it is asked for again', () => {
    const rough = tester('ROUGH', { accuracy: { ofReading: 0, ofRange: 0, plus: quantity('2 V') } })
    beforeReading([rough], (stage) => {
      expect(stage.read('ROUGH', 'ROUGH', 49)).toEqual(['', 'instrument'])
      expect(Object.keys(stage.run.snapshot.progress.readings)).toEqual(['L1-L2'])
      // Live is live, whatever showed it: that is always on record.
      expect(stage.read('ROUGH', 'ROUGH', 50)).toEqual(['', ''])
      expect(leave(stage)).toBe('out-of-limits')
      expect(stage.read('ROUGH', 'ROUGH', 47.9)).toEqual(['', ''])
      expect(leave(stage)).toBe('')
    })
  })

  it('records what is live by any instrument, or by none that is named', () => {
    beforeReading([tester('VT-1'), tester('OLD', { calibrations: [] })], (stage) => {
      expect(stage.read('VT-1', 'OLD', 930)).toEqual(['', ''])
      expect(stage.read('VT-1', 'nobody knows', 50)).toEqual(['', ''])
      expect(stage.read('VT-1', undefined, -50)).toEqual(['', ''])
      expect(stage.read('VT-1', undefined, 49.9)).toEqual(['', 'instrument'])
      expect(stage.read('VT-1', 'OLD', 0)).toEqual(['', 'instrument'])
    })
  })

  it('records no further reading by a tester other than the one that was tried, and says with which to go on', () => {
    beforeReading([tester('VT-1'), tester('VT-2')], (stage) => {
      expect(stage.read('VT-1', 'VT-2')).toEqual(['', 'instrument'])
      const event = { kind: 'reading', state: 'prove-dead', input: 'DC', value: 0, typed: '0 V', instrument: 'VT-2' }
      const refused = stage.run.take({ ...(event as unknown as BareEvent), by: person('runa') })
      expect(refused.ok ? '' : refused.refusals[0].mend).toContain('Go on with `VT-1`')
      expect(stage.read('VT-1', 'VT-1')).toEqual(['', ''])
      expect(leave(stage)).toBe('')
    })
  })

  it('lets all be read again with another tester, and is not left before all was', () => {
    beforeReading([tester('VT-1'), tester('VT-2')], (stage) => {
      expect(stage.read('VT-1', 'VT-1')).toEqual(['', ''])
      expect(stage.read('VT-2', 'VT-1')).toEqual(['', ''])
      expect(leave(stage)).toBe('instrument')
      expect(stage.read('VT-2', 'VT-2')).toEqual(['', ''])
      expect(leave(stage)).toBe('')
    })
  })

  it('asks it of a proof after a break as well', () => {
    const rough = tester('ROUGH', { accuracy: { ofReading: 0, ofRange: 0, plus: quantity('2 V') } })
    beforeReading([tester('VT-7'), rough], (stage) => {
      const { run } = stage
      stage.read('VT-7', 'VT-7')
      leave(stage)
      const by = person('runa')
      run.take({ kind: 'paused', reason: 'Dinner', by })
      run.take({ kind: 'resumed', locksOn: true, by })
      const again = (source: string, value: number, instrument?: string) =>
        told(
          run.take({
            ...({
              kind: 'proven-again',
              source,
              value,
              typed: `${value} V`,
              ...(instrument === undefined ? {} : { instrument })
            } as BareEvent),
            by
          })
        )
      expect(run.snapshot.recheck).toEqual(['mains', 'dc-link'])
      expect(again('mains', 0)).toBe('instrument')
      expect(again('mains', 0, 'VT-9')).toBe('instrument')
      expect(again('mains', 49, 'ROUGH')).toBe('instrument')
      expect(again('mains', 0, 'VT-7')).toBe('')
      expect(again('dc-link', 3, 'VT-7')).toBe('')
      expect(run.snapshot.recheck).toEqual([])
    })
  })

  it('refuses every reading on a list that someone altered', () => {
    beforeReading([tester('VT-7')], ({ site, read }) => {
      writeInstruments(site, [tester('VT-7')], 2)
      expect(read('VT-7', 'VT-7')).toEqual(['', ''])
      plantForeign(site)
      expect(read('VT-7', 'VT-7')).toEqual(['instrument', 'instrument'])
    })
  })

  it.each(['draft', 'rehearsal'] as const)('a %s is refused nothing', (mode) => {
    beforeReading([tester('VT-7')], ({ read }) => expect(read(undefined, 'VT-9')).toEqual(['', '']), mode)
  })
})

describe('the audit', () => {
  it('tells of each instrument what speaks against it, by the list that stands now', () => {
    beforeReading([tester('VT-7')], (stage) => {
      stage.read('VT-7', 'VT-7')
      goOn(stage)
      const [first, second] = [readingAt + 2, readingAt + 3]
      const after = (change: Partial<Instrument>): readonly string[] => {
        writeInstruments(stage.site, [tester('VT-7', change)], 2)
        return fitOf(stage.site)
      }
      const both = (id: string) => [`fault ${id} ${first}`, `fault ${id} ${second}`]
      expect(after({ withdrawn: { from: '2026-03-01', why: 'Found 8 V low' } })).toEqual(both('instrument-withdrawn'))
      const past = [{ from: '2025-01-01', until: '2026-03-01', certificate: null }]
      expect(after({ calibrations: past })).toEqual(both('instrument-not-calibrated'))
      expect(after({ id: 'VT-8' })).toEqual(both('instrument-unknown'))
      expect(after({ ratings: [] })).toEqual(both('instrument-under-rated'))
      expect(after({ accuracy: { ofReading: 0, ofRange: 0, plus: quantity('50 V') } })).toEqual([
        `doubt near-the-limit ${first}`,
        `doubt near-the-limit ${second}`
      ])
      plantForeign(stage.site)
      expect(fitOf(stage.site)).toEqual(['fault instruments-unsound null'])
    })
  })

  it('does not hold a reading near the limit against a run that read it lower afterwards', () => {
    const rough = tester('ROUGH', { accuracy: { ofReading: 0, ofRange: 0, plus: quantity('2 V') } })
    beforeReading([rough], (stage) => {
      stage.read('ROUGH', 'ROUGH', 49)
      stage.read('ROUGH', 'ROUGH', 20)
      expect(goOn(stage)?.ok).toBe(true)
      expect(fitOf(stage.site)).toEqual([])
    })
  })

  it('doubts a reading that names none, taken before the site had a list', () => {
    beforeReading(null, (stage) => {
      stage.read(undefined, undefined)
      goOn(stage)
      writeInstruments(stage.site, [tester('VT-7')])
      expect(fitOf(stage.site)).toEqual(
        [readingAt + 2, readingAt + 3].map((seq) => `doubt instrument-not-named ${seq}`)
      )
    })
  })

  it('judges what came from paper, which nothing refused', () => {
    inFolder((folder) => {
      const site = plantSite(folder)
      writeInstruments(site, [tester('VT-7')])
      const clock = scriptedClock('2026-03-05T12:00:00.000Z')
      issue({ site, machine: ratedFan, signer: signerOf('birk'), clock: scriptedClock() })
      const onPaper = { enteredBy: person('birk'), at: '2026-03-02T09:00:00Z' }
      const run = startRun({ site, machine: ratedFan, mode: 'issued', by: person('odd'), clock, id: 'fan', onPaper })
      if (!run.ok) return expect.fail(JSON.stringify(run.faults))
      enterFromSheet(run.value, clock, onPaper.at)
      run.value.close()
      expect(fitOf(site)).toContain(`doubt instrument-not-named ${readingAt + 2}`)
    })
  })
})

/** Puts a list in place that someone without the root key signed. */
function plantForeign(site: Site): void {
  const list = {
    site: 'Sandholm waterworks',
    serial: 9,
    signedAt: '2026-02-01T07:00:00.000Z',
    instruments: [tester('VT-7')]
  }
  writeFileSync(layout.instruments(site), formatInstruments(list, keyOf('odd')))
}
