import { readFileSync, writeFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { generalOf, inAuditedPlant } from '../../fixtures/audited-plant.js'
import { fanJob, keyOf, person, plantPeople, signerOf, writeRoster } from '../../fixtures/plant.js'
import { publicBytesOf } from '../public-key.js'
import { readRoster } from '../roster-file.js'
import type { Site } from '../site.js'
import { daysAfter, daysOf } from './days.js'
import { type InspectRequest, inspect } from './inspect.js'
import { parseInspection } from './inspection.js'

const day = 86_400
/** Someone who is qualified as the procedure asks and does not work by it. */
const ask = {
  ...plantPeople[1],
  id: person('ask'),
  name: 'Ask Brenne',
  key: publicBytesOf(keyOf('ask'))
} as (typeof plantPeople)[number]

function withAsk(site: Site, change: Partial<typeof ask> = {}): void {
  writeRoster(site, [...plantPeople, { ...ask, ...change }], 2)
}
const askSigner = signerOf('ask')

type Asked = Partial<InspectRequest>
const request = (site: Site, clock: InspectRequest['clock'], change: Asked = {}): InspectRequest => ({
  site,
  clock,
  procedure: 'F12-BEARING',
  signer: askSigner,
  employees: ['odd', 'runa'],
  reviewed: ['odd', 'runa'],
  deviations: [],
  ...change
})

const told = (result: ReturnType<typeof inspect>): string =>
  result.ok ? 'signed' : `${result.faults[0].id}: ${result.faults[0].what}`

describe('a periodic inspection', () => {
  it('is signed with the four items, what was found, and who was gone through it with', async () => {
    await inAuditedPlant(({ site, clock, put }) => {
      put('fan')
      withAsk(site)
      const result = inspect(
        request(site, clock, {
          watched: 'fan',
          reviewed: ['runa'],
          deviations: [{ found: 'The tester was not tried first', corrected: 'Gone through the same day' }]
        })
      )
      if (!result.ok) return expect.fail(told(result))
      const { inspection, file } = result.value
      expect(inspection).toMatchObject({
        equipment: { tag: 'F-12', name: 'Filter fan 12', place: 'Sandholm waterworks' },
        on: '2026-03-02',
        from: '2025-03-02',
        by: 'ask',
        name: 'Ask Brenne',
        employees: [{ id: 'odd', name: 'Odd Teig' }, { id: 'runa' }],
        outstanding: [{ id: 'odd', name: 'Odd Teig' }]
      })
      const roster = readRoster(site)
      if (!roster.ok) return expect.fail('no roster')
      const bytes = readFileSync(file)
      expect(parseInspection(bytes, file, roster.value)).toEqual({ ok: true, value: inspection })
      for (let position = 0; position < bytes.length; position += 1) {
        const changed = Uint8Array.from(bytes)
        changed[position] = (changed[position] ?? 0) ^ (1 << (position % 8))
        if (parseInspection(changed, file, roster.value).ok) expect.fail(`byte ${position} was changed and not told`)
      }
    })
  })

  it('is refused to those whom the standard bars, with its words cited, and writes nothing', async () => {
    await inAuditedPlant(async ({ site, clock, put, audited }) => {
      put('fan')
      withAsk(site)
      const refusals = [
        request(site, clock, { employees: ['odd', 'ask'] }),
        request(site, clock, { signer: signerOf('runa'), employees: ['odd'] }),
        request(site, clock, { employees: [] }),
        request(site, clock, { on: '2026-03-03' }),
        request(site, clock, { on: 'yesterday' }),
        request(site, clock, { employees: ['nobody'] }),
        request(site, clock, { procedure: 'F12-OTHER' }),
        request(site, clock, { watched: 'another' }),
        request(site, clock, { deviations: [{ found: 'Lock left in the drawer', corrected: ' ' }] }),
        request(site, clock, { signer: { ...askSigner, key: signerOf('odd').key } })
      ].map((one) => told(inspect(one)))
      expect(refusals.map((one) => one.split(':')[0])).toEqual([
        'not-the-inspector',
        'not-the-inspector',
        'nobody-inspected',
        'not-yet',
        'not-a-day',
        'no-such-person',
        'not-issued',
        'no-such-run',
        'not-corrected',
        'not-their-key'
      ])
      expect(refusals[0]).toContain('1910.147(c)(6)(i)(A)')
      expect(refusals[1]).toContain('worked by this procedure within the inspected time, in run fan')
      expect((await audited()).inspections[0]?.last).toBeNull()
    })
  })

  it('is refused to someone who is qualified for no role of the procedure on that day', async () => {
    await inAuditedPlant(({ site, clock, put }) => {
      put('fan')
      withAsk(site, { qualifications: [] })
      expect(told(inspect(request(site, clock)))).toContain('`electrical-lv`')
      withAsk(site, { qualifications: [{ is: 'electrical-lv', validFrom: '2026-03-03', validUntil: null }] })
      expect(told(inspect(request(site, clock)))).toContain('not-the-inspector')
    })
  })

  it('may be done by someone who worked by it longer ago than the inspected time, and who only rehearsed', async () => {
    await inAuditedPlant(({ site, clock, put }) => {
      put('fan')
      clock.pass(366 * day)
      const until = { validFrom: '2026-01-01', validUntil: null }
      writeRoster(
        site,
        plantPeople.map((one) => ({
          ...one,
          qualifications: [
            { is: 'electrical-lv', ...until },
            { is: 'coordinator', ...until }
          ]
        })),
        2
      )
      put('practice', fanJob, 'rehearsal')
      const result = inspect(request(site, clock, { signer: signerOf('runa'), employees: ['liv'], reviewed: [] }))
      expect(told(result)).toBe('signed')
    })
  })
})

describe('what the audit makes of inspections', () => {
  it('counts 365 days, from the first issue and then from the last sound inspection', async () => {
    await inAuditedPlant(async ({ site, clock, put, audited }) => {
      put('fan')
      withAsk(site, { qualifications: [{ is: 'electrical-lv', validFrom: '2026-01-01', validUntil: null }] })
      const due = async () => generalOf(await audited(), 'due').filter((one) => one.includes('inspect'))
      clock.pass(365 * day)
      expect((await audited()).inspections).toMatchObject([{ dueOn: '2027-03-02', overdue: false, last: null }])
      clock.pass(day)
      expect(await due()).toEqual(['fault never-inspected'])
      expect(told(inspect(request(site, clock)))).toBe('signed')
      const [state] = (await audited()).inspections
      expect(state).toMatchObject({ overdue: false, last: { on: '2027-03-03', by: 'Ask Brenne' }, dueOn: '2028-03-02' })
      expect(state?.counted).toBe('365 days from the inspection of 2027-03-03, by days in UTC')
      expect(await due()).toEqual([])
      clock.pass(366 * day)
      expect(await due()).toEqual(['doubt inspection-overdue'])
      put('once-more', fanJob.slice(0, 3))
      expect(await due()).toEqual(['fault inspection-overdue'])
    })
  })

  it('counts none that was forged, and none by someone who used the procedure; both are told', async () => {
    await inAuditedPlant(async ({ site, clock, put, audited }) => {
      withAsk(site, { qualifications: [{ is: 'electrical-lv', validFrom: '2026-01-01', validUntil: null }] })
      const signed = inspect(request(site, clock, { reviewed: [] }))
      if (!signed.ok) return expect.fail(told(signed))
      const { file } = signed.value
      expect((await audited()).inspections[0]?.last?.on).toBe('2026-03-02')
      const ran = fanJob.map((step) => (step.by === 'runa' ? { ...step, by: 'ask' } : step)).slice(0, 11)
      put('fan', ran)
      const used = await audited()
      expect(used.inspections[0]?.last).toBeNull()
      expect(generalOf(used, 'due')).toContain('fault inspection-not-counted')
      writeFileSync(file, readFileSync(file, 'utf8').replace(/\..{8}/, '.AAAAAAAA'))
      expect(generalOf(await audited(), 'due')).toContain('fault inspection-unsound')
    })
  })

  it('tells with whom responsibilities have still to be gone through', async () => {
    await inAuditedPlant(async ({ site, clock, put, audited }) => {
      put('fan')
      withAsk(site)
      expect(told(inspect(request(site, clock, { reviewed: ['runa'] })))).toBe('signed')
      const found = (await audited()).general.flatMap(({ findings }) => findings)
      expect(found.find(({ id }) => id === 'review-outstanding')?.what).toContain('Odd Teig (odd)')
    })
  })
})

describe('days', () => {
  it('are counted in UTC, over leap days and short durations', () => {
    expect(daysAfter('2028-02-28', 1)).toBe('2028-02-29')
    expect(daysAfter('2027-03-01T23:59:59Z', 365)).toBe('2028-02-29')
    expect(['P1Y', 'P6M', 'P2W', 'P10D', 'P1Y6M', 'P', 'PT1H', 'x'].map(daysOf)).toEqual([
      365,
      180,
      14,
      10,
      545,
      null,
      null,
      null
    ])
  })
})
