import { type AxisId, type AxisValueId, plainText } from '@lockwright/language'
import type { ProofReport } from '@lockwright/proof'
import { describe, expect, it } from 'vitest'
import { boosterPump } from '../booster-pump.fixture.js'
import { english } from '../catalog.js'
import { made } from '../made.fixture.js'
import type { PrintOptions } from '../print-options.js'
import { card, cards, digest, draft, entries, laidOut, strings } from './laid-out.fixture.js'

describe('the steps', () => {
  const blocks = laidOut()

  it('print each state once, in reading order', () => {
    const printed = cards(blocks).map(({ title }) => title)
    const states = boosterPump().states.filter(({ kind }) => kind !== 'back')
    expect(printed).toEqual(states.map(({ title }) => title))
  })

  it('have a box for each item and for each tester check', () => {
    expect(entries(card(blocks, 'Try the start control').rows).map(({ mark }) => mark)).toEqual(['box', 'box'])
    const prove = strings(card(blocks, 'Prove mains and dc-link dead').rows)
    const before = prove.findIndex((text) => text.startsWith('Tester works, tried before'))
    const after = prove.findIndex((text) => text.startsWith('Tester works, tried after'))
    expect(before).toBeGreaterThan(-1)
    expect(before).toBeLessThan(prove.indexOf('L1 to L2'))
    expect(after).toBeGreaterThan(prove.indexOf('DC- to earth'))
    expect(prove.filter((text) => text.startsWith('A reading at or above its limit is LIVE'))).toHaveLength(1)
  })

  it('print the limit beside every reading', () => {
    const cells = card(blocks, 'Prove mains and dc-link dead').rows.flatMap((row) =>
      row.kind === 'readings' ? row.cells : []
    )
    expect(cells).toHaveLength(9)
    expect(new Set(cells.map(({ limit }) => limit))).toEqual(new Set(['below 50\u00A0V']))
    expect(strings(card(blocks, 'Measure DC link voltage'))).toContain('880 to 980 V')
  })

  it('have room for a lock number at each point, and say which point is not on every generation', () => {
    const rows = entries(card(blocks, 'Lock Q1, V1 and V2').rows)
    expect(rows.map(({ blanks }) => blanks.map(({ label }) => label))).toEqual(Array(3).fill(['Lock no.', 'Name']))
    expect(strings(rows[2]).join(' ')).toContain('Series T only')
    expect(strings(rows[0]).join(' ')).toContain('handle at O')
  })

  it('print a wait with its length, its reason, and room for its start and end', () => {
    const [wait] = entries(card(blocks, 'Let the energy out of dc-link').rows)
    expect(strings(wait).join(' ')).toContain('Wait at least 15 min')
    expect(strings(wait).join(' ')).toContain('as the label says')
    expect(wait?.blanks.map(({ label }) => label)).toEqual(['Started', 'Ends, not before'])
  })

  it('show a notice before the step that it belongs to', () => {
    expect(card(blocks, 'Let the energy out of dc-link').notices).toMatchObject([
      { word: 'danger', signal: 'DANGER', label: 'Stored charge' }
    ])
  })

  it('tell each answer where to go on, and a plain step only where it is not the next', () => {
    const ways = (title: string) =>
      card(blocks, title).rows.flatMap((row) => (row.kind === 'way' ? [[plainText(row.text), row.go]] : []))
    expect(ways('What does the status window show while the drive tries to start?')).toEqual([
      ['P, and the bar stays empty for 30 s', 'Go on with step 5'],
      ['Anything else', 'Go on with step 4']
    ])
    expect(ways('Does the module sit flush?')).toEqual([
      ['Yes', 'Go on with step 19'],
      ['No', 'Go back to step 17']
    ])
    expect(ways('Work: undo the four bolts')).toEqual([['', 'Go on with step 17']])
    expect(ways('Work: slide the module out')).toEqual([])
    expect(ways('Within 60 s')).toEqual([['Time ran out before this was done', 'Go on with step 21']])
    expect(ways('Work: press the seal home')).toEqual([
      ['Done in time', 'Go on with step 22'],
      ['Time ran out before this was done', 'Go on with step 21']
    ])
  })

  it('have room for three times where they can come again', () => {
    expect(card(blocks, 'Work: fit the new module').times).toBe(3)
    expect(card(blocks, 'Work: undo the four bolts').times).toBe(1)
    const [reading] = card(blocks, 'Measure DC link voltage').rows.flatMap((row) =>
      row.kind === 'readings' ? row.cells : []
    )
    expect(reading?.times).toBe(3)
  })

  it('set gates, stops and choices apart by shape', () => {
    expect(card(blocks, 'Lock Q1, V1 and V2')).toMatchObject({ shape: 'gate', bar: 'LOCK' })
    expect(card(blocks, 'Stop: not a pre-charge fault')).toMatchObject({ shape: 'stop', bar: 'STOP HERE' })
    expect(card(blocks, 'By the cabinet')).toMatchObject({ shape: 'choice' })
    expect(card(blocks, 'Work: fit the new module')).toMatchObject({ shape: 'plain' })
  })

  it('say in words what is on and who allowed it at a test with power on', () => {
    const machine = boosterPump()
    const live = made('live', {
      kind: 'live',
      title: 'Test with power on: gate pulses',
      section: 'change',
      near: ['mains'],
      apart: ['water'],
      why: 'The fault shows under load alone',
      permits: ['permit'],
      exits: [{ on: 'done', to: 'finish' }]
    })
    const states = machine.states.flatMap((state) =>
      state.id === 'fit' ? [{ ...state, exits: [{ on: 'done', to: live.id }] } as typeof state, live] : [state]
    )
    const test = card(laidOut(boosterPump({ states })), 'Test with power on: gate pulses')
    expect(test.shape).toBe('live')
    expect(strings(test.rows)).toEqual(
      expect.arrayContaining([
        'POWER IS ON. Under test: mains.',
        'Also on, kept out of reach: water.',
        'Only with the sign-off of step 10.',
        'Why: The fault shows under load alone'
      ])
    )
  })
})

describe('the first page', () => {
  it('shows what, where, which revision and whether it was issued', () => {
    const [title] = laidOut()
    expect(title).toMatchObject({
      kind: 'title',
      title: 'Replace the pre-charge module of booster pump 2',
      code: `LOCKWRIGHT/1 P202-PRECHARGE r3 sha256:${digest}`
    })
    const told = strings(title)
    for (const fact of ['P-202, Booster pump 2 drive', 'Sandholm pumping station', '3', 'DRAFT, not issued for use'])
      expect(told).toContain(fact)
    expect(told.join('').replaceAll(' ', '')).toContain(digest)
    const [issued] = laidOut(boosterPump(), {
      ...draft,
      issue: { kind: 'issued', by: 'A. Coordinator', at: '2026-01-05T10:00:00Z' }
    })
    expect(strings(issued)).toContain('Issued by A. Coordinator, 2026-01-05 10:00 UTC')
  })

  it('tells of each source its magnitude, its device, how it is let out and how it is verified', () => {
    const blocks = laidOut()
    const at = blocks.findIndex((block) => block.kind === 'heading' && block.text === 'Energy sources')
    const table = blocks[at + 1]
    const rows = table?.kind === 'table' ? table.rows.map((row) => strings(row).join(' ')) : []
    expect(rows[0]).toMatch(
      /mains.*690 V ac ± 10 %.*Q1.*switch-disconnector.*handle at O.*held by earths.*below 50 V.*step 11/
    )
    expect(rows[1]).toMatch(/dc-link.*9\.4 mF ± 20 %.*fed by mains.*wait 15 min.*as the label says/)
    expect(rows[3]).toMatch(/Series T only/)
  })

  it('prints what stays on with its reason and permit, and every waiver', () => {
    const span = { line: 1, column: 1, endLine: 1, endColumn: 2 }
    const told = strings(
      laidOut(
        boosterPump({
          leftOn: [{ source: 'water', span, why: 'The seal must stay wet', permits: ['permit'] }],
          waivers: [{ obligation: 'gathered-first', span, why: 'Kept beside the machine', by: 'A. Coordinator' }]
        } as never)
      )
    )
    for (const text of [
      'Stays on during the work',
      'The seal must stay wet',
      'step 10',
      'gathered-first',
      'Kept beside the machine'
    ])
      expect(told).toContain(text)
  })

  it('carries the cautions', () => {
    const told = strings(laidOut())
    for (const caution of english.cautions) expect(told).toContain(caution)
  })

  it('explains only the shapes that the sheet has', () => {
    const shapes = (options: PrintOptions) =>
      laidOut(boosterPump(), options).flatMap((block) =>
        block.kind === 'legend' ? block.entries.map(({ shape }) => shape) : []
      )
    expect(shapes(draft)).toContain('rail')
    expect(shapes({ ...draft, for: { ['cabinet' as AxisId]: 'series-s' as AxisValueId } })).not.toContain('rail')
  })
})

describe('the sheet for one generation', () => {
  const blocks = laidOut(boosterPump(), { ...draft, for: { ['cabinet' as AxisId]: 'series-s' as AxisValueId } })

  it('says so in its title and names nothing that is not there', () => {
    const told = strings(blocks)
    expect(told).toContain('Replace the pre-charge module of booster pump 2, for Series S only')
    // On the step that asks for the generation, for whoever hears its circle read out, and on the map.
    expect(told.filter((text) => text.includes('Series T')).length).toBe(3)
    expect(told).not.toContain('tank')
  })

  it('stops who finds another generation', () => {
    const ways = card(blocks, 'Identify the cabinet').rows.flatMap((row) => (row.kind === 'way' ? [row.go] : []))
    expect(ways).toEqual(['Go on with step 3', english.ways.otherSheet])
  })
})

describe('the last page', () => {
  it('has a row for each sign-off with room for name, qualification, signature and date', () => {
    const blocks = laidOut()
    const at = blocks.findIndex((block) => block.kind === 'heading' && block.text === 'Sign-offs')
    const table = blocks[at + 1]
    expect(table?.kind === 'table' ? table.columns.map(({ head }) => head) : []).toEqual([
      'Step',
      'Meaning of the signature',
      'Name',
      'Qualification',
      'Signature',
      'Date, time'
    ])
    expect(table?.kind === 'table' ? strings(table.rows[0]) : []).toEqual(
      expect.arrayContaining(['10', 'The inner cover may be opened', 'Qualified electrical person'])
    )
  })

  it('lists what was proven and how much was looked at, and claims no more', () => {
    const report: ProofReport = {
      states: 29,
      configurations: 412,
      milliseconds: 3,
      obligations: [
        { id: 'work-isolated', outcome: 'holds' },
        { id: 'left-on', outcome: 'does-not-arise' },
        { id: 'gathered-first', outcome: 'waived' }
      ]
    }
    const told = strings(laidOut(boosterPump(), { ...draft, report })).join('\n')
    expect(told).toContain('Explored: 29 machine states, 412 reachable configurations')
    expect(told).toMatch(/hold in every reachable configuration: \n.*\nwork-isolated\./)
    expect(told).toMatch(/do not arise in this procedure: \n.*\nleft-on\./)
    expect(told).toContain(english.closing.claim)
  })
})
