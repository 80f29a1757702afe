import { energySheet, parseWhatIf, type WhatIf } from '@lockwright/energy'
import { type Machine, writtenWaits } from '@lockwright/machine'
import { describe, expect, it } from 'vitest'
import { boosterPump } from '../booster-pump.fixture.js'
import { english } from '../catalog.js'
import { done, made, quantity, span } from '../made.fixture.js'
import type { PrintOptions } from '../print-options.js'
import { buildSheet } from '../sheet/build-sheet.js'
import type { Block } from './block.js'
import { energySheetBlocks } from './energy-sheet-blocks.js'
import { layOut } from './lay-out.js'

const draft: PrintOptions = { paper: 'a4', issue: { kind: 'draft' }, digest: 'ab12'.repeat(16) }

/** Every string of the blocks, in reading order, in one. */
function said(value: unknown): string {
  if (typeof value === 'string') return value.replaceAll('\u00A0', ' ')
  if (value === null || typeof value !== 'object') return ''
  return Object.entries(value)
    .map(([key, each]) => (key === 'kind' ? '' : said(each)))
    .join('')
}

function checklist(machine = boosterPump()): readonly Block[] {
  return layOut(buildSheet(machine), draft, english)
}

function sourceTable(blocks: readonly Block[]): Extract<Block, { kind: 'table' }> {
  const found = blocks.find((block) => block.kind === 'table' && block.columns.length === 4)
  if (found?.kind !== 'table') throw new Error('no table of sources')
  return found
}

/** The fixture with these quantities of the link in place of its own, and perhaps a written wait. */
function withLink(quantities: Readonly<Record<string, string>>, wait?: string): ReturnType<typeof boosterPump> {
  const { sources, states } = boosterPump()
  const parsed = Object.fromEntries(Object.entries(quantities).map(([name, text]) => [name, quantity(text)]))
  const relieve = made('relieve', {
    kind: 'relieve',
    title: 'Let out',
    sources: ['dc-link'],
    with: [],
    wait: wait === undefined ? null : quantity(wait),
    exits: done('tank')
  })
  return boosterPump({
    sources: sources.map((source) => (source.id === 'dc-link' ? { ...source, quantities: parsed } : source)),
    states: wait === undefined ? states : states.map((state) => (state.id === relieve.id ? relieve : state))
  } satisfies Partial<Machine>)
}

describe('the energies on the checklist', () => {
  // ½ · 11.28 mF · (976.5 V)² = 5.378 kJ, and 5378 J / 9.80665 m/s² = 548 kg, by hand.
  it('are told in joules, as a fall that is felt, and by the threshold they pass', () => {
    const link = said(sourceTable(checklist()).rows[1]?.[0])
    expect(link).toContain('at most 5.38 kJ, as the fall of 548 kg (1210 lb) from 1 m')
    expect(link).toContain('very dangerous (from 10 J)')
  })

  it('are called trivial below every threshold', () => {
    const link = sourceTable(checklist(withLink({ voltage: '60 V dc', capacitance: '10 µF' }))).rows[1]?.[0]
    expect(said(link)).toContain('at most 0.018 J, as the fall of 1.84 g from 1 m')
    expect(said(link)).toContain('trivial')
    expect(said(link)).not.toContain('dangerous')
  })

  it('that cannot be computed are not passed over in silence', () => {
    expect(said(sourceTable(checklist()).rows[2]?.[0])).toContain('energy not computed: no sign that it is small')
    expect(said(sourceTable(checklist()).rows[0]?.[0])).not.toContain('energy')
  })

  it('show the other grounds of a wait beside the one that governs', () => {
    const release = said(sourceTable(checklist()).rows[1]?.[2])
    expect(release).toContain('wait 15 min (as the label says; computed 10 min 34 s)')
  })

  it('carry the remark that a discharge standard lets 75 V stand', () => {
    const minded = checklist().find((block) => block.kind === 'panel' && block.heading === english.energy.mind)
    expect(said(minded)).toContain('dc-link: A capacitor built to IEC 60831-1 or IEC 60871-1 may stand at 75 V')
  })

  it('that fall have a curve with the safe level and each wait, told in words too', () => {
    const machine = withLink(
      { voltage: '930 V dc ± 5 %', capacitance: '9.4 mF ± 20 %', bleed: '18 kΩ ± 5 %', 'label-wait': '15 min' },
      '20 min'
    )
    const block = checklist(machine).find(({ kind }) => kind === 'plots')
    if (block?.kind !== 'plots') throw new Error('no curve')
    expect(block.plots).toHaveLength(1)
    const [plot] = block.plots
    const words = plot?.plot.marks.flatMap((mark) => (mark.kind === 'text' ? [mark.text] : []))
    for (const word of ['worst case', 'label', 'written', 'safe 50 V']) expect(words).toContain(word)
    expect(plot?.alternate).toBe(
      'Curve: voltage of dc-link over time, from at most 976.5 V. In the worst case it takes 10.6 min to fall to 50 V. Also marked: label 15 min, written 20 min.'
    )
  })

  it('that do not fall have none', () => {
    const machine = withLink({ voltage: '930 V dc', capacitance: '9.4 mF' })
    expect(checklist(machine).some(({ kind }) => kind === 'plots')).toBe(false)
  })
})

function calculation(machine: Machine, ...whatIf: readonly string[]): readonly Block[] {
  const read = whatIf.map((text): WhatIf => {
    const parsed = parseWhatIf(text)
    if (!parsed.ok) throw new Error(parsed.why)
    return parsed.value
  })
  const sheet = energySheet(machine.sources, { whatIf: read, writtenWaits: writtenWaits(machine) })
  return energySheetBlocks(machine, sheet, draft, english)
}

describe('the calculation sheet', () => {
  it('shows inputs, formula, figures put in, result with its range, and source', () => {
    const all = said(calculation(boosterPump()))
    for (const part of [
      'Time to the safe voltage: 10 min 34 s, at best 6 min 10 s',
      '0.01128 F',
      't = R·C·ln(V0/V)',
      't = 18900 Ω·0.01128 F·ln(976.5 V/50 V) = 633.596 s',
      'Source: RC discharge: OpenStax College Physics'
    ])
      expect(all).toContain(part)
  })

  it('names what is missing', () => {
    expect(said(calculation(boosterPump()))).toContain('not computable, missing volume')
  })

  it('marks what is taken otherwise than declared, at its place and at the head', () => {
    const blocks = calculation(boosterPump(), 'dc-link.voltage=750 V')
    const panel = blocks.find((block) => block.kind === 'panel' && block.heading === english.energy.remarks)
    expect(said(panel)).toContain('dc-link, voltage: 750 V (what if, in place of 930 V dc ± 5 %)')
    expect(said(blocks)).toContain('E = ½·0.01128 F·(750 V)² = 3172.5 J')
  })

  it('takes surface and contact of a hot source from the machine', () => {
    const { sources } = boosterPump()
    const [first] = sources
    if (first === undefined) throw new Error('no source')
    const oven = {
      ...first,
      span,
      kind: 'thermal',
      quantities: { temperature: quantity('180 °C') },
      surface: 'bare metal',
      contact: '1 s'
    } as const
    expect(said(calculation(boosterPump({ sources: [oven] })))).toContain('Touch threshold: bare metal')
  })
})
