import { describe, expect, test } from 'vitest'
import type { EnergyKind } from '../energy-parameters.js'
import { parseQuantity } from '../parse-quantity.js'
import { readEnergySource } from '../read-parameter.js'
import { energySheet, type SheetSource } from './energy-sheet.js'
import { formatEnergySheet } from './format-energy-sheet.js'
import { parseWhatIf, type WhatIf } from './what-if.js'

function source(id: string, kind: EnergyKind, texts: Readonly<Record<string, string>>): SheetSource {
  const read = readEnergySource(kind, texts)
  if (!read.ok) throw new Error(read.why.join(' '))
  return { id, ...read.value }
}

function whatIf(...texts: readonly string[]): readonly WhatIf[] {
  return texts.map((text) => {
    const parsed = parseWhatIf(text)
    if (!parsed.ok) throw new Error(parsed.why)
    return parsed.value
  })
}

const link = source('dc-link', 'capacitor', {
  capacitance: '9.4 mF ± 20 %',
  voltage: '930 V dc ± 5 %',
  bleed: '18 kΩ ± 5 %',
  'label-wait': '15 min'
})
const air = source('air', 'gas', { pressure: '7 bar', volume: '12 L' })

describe('one entry', () => {
  const [entry] = energySheet([link]).entries

  test('energy, comparison, magnitude, time and wait', () => {
    expect(entry?.energy.kind).toBe('computed')
    expect(entry?.felt).toBe('as the fall of 548 kg (1210 lb) from 1 m')
    expect(entry?.magnitude).toMatchObject({ magnitude: 'very-dangerous' })
    expect(entry?.wait).toMatchObject({ because: 'label', seconds: 900 })
    expect(entry?.wait.grounds.computed).toBeCloseTo(633.6, 1)
    expect(entry?.curve?.safeAfter).toBe(entry?.wait.grounds.computed)
  })

  test('what is easily missed', () => {
    expect(entry?.findings).toEqual([
      expect.stringContaining('may stand at 75 V'),
      'At its safe level it still holds 14.1 J (10.4 ft·lbf): short it before anything touches its terminals.'
    ])
  })

  test('a written wait that is too short, and a label that is', () => {
    const minute = parseQuantity('1 min')
    if (!minute.ok) throw new Error(minute.why)
    const [hasty] = energySheet([link], { writtenWaits: { 'dc-link': minute.value } }).entries
    expect(hasty?.findings[0]).toBe('The written wait of 1 min is too short.')
    const [short] = energySheet([{ ...link, quantities: { ...link.quantities, 'label-wait': minute.value } }]).entries
    expect(short?.findings[0]).toBe(
      'The label asks for 1 min, and the worst case of what is declared takes 10 min 34 s.'
    )
  })
})

describe('findings of other kinds', () => {
  const findings = (kind: EnergyKind, texts: Readonly<Record<string, string>>) =>
    energySheet([source('it', kind, texts)])
      .entries.flatMap((entry) => [...entry.findings, ...entry.advice])
      .join(' ')

  test('the gas that stays in an accumulator, and its magnitude by the larger of the two', () => {
    const texts = { pressure: '180 bar', precharge: '90 bar', 'gas-volume': '10 L' }
    expect(findings('liquid', texts)).toBe(
      'When the oil is drained the gas still holds 164.6 kJ (121000 ft·lbf), more than the oil gave up.'
    )
    const sheet = energySheet([source('it', 'liquid', texts)])
    expect(sheet.entries[0]).toMatchObject({
      magnitude: { magnitude: 'very-dangerous' },
      judgedBy: 'accumulator-precharge-energy'
    })
    expect(formatEnergySheet(sheet)).toContain('Comparison of the gas that stays: as the fall of 16.8 t from 1 m')
  })

  test('a liquid of which nothing says what makes its pressure: a bound, and what to give', () => {
    expect(findings('liquid', { pressure: '4 bar', volume: '2 m³' })).toContain(
      'it is at most 800 kJ (590000 ft·lbf) then'
    )
    expect(findings('liquid', { pressure: '4 bar' })).toContain('give `column-height`. Where a pump')
    expect(findings('liquid', { pressure: '4 bar', volume: '2 m³', 'column-height': '40 m' })).toBe('')
    expect(findings('liquid', { pressure: '4 bar', precharge: '2 bar' })).toBe('')
  })

  test('a safe temperature that burns', () => {
    const oven = { temperature: '180 °C', surface: 'bare steel', contact: '10 s' }
    expect(findings('thermal', { ...oven, 'safe-below': '60 °C' })).toContain(
      'The safe level of 60 °C is above the touch threshold: bare metal touched for up to 10 s burns from 55 °C'
    )
    expect(findings('thermal', oven)).toContain('Touch threshold: bare metal')
    expect(findings('thermal', { temperature: '180 °C' })).toContain('missing surface and contact')
    expect(findings('thermal', { ...oven, surface: 'fur' })).toContain('none of the materials')
  })

  test('a spring whose preload contradicts its deflection', () => {
    expect(findings('spring', { rate: '50 N/mm', deflection: '5 mm', preload: '500 N' })).toContain(
      'preload is greater'
    )
    expect(findings('spring', { rate: '50 N/mm', deflection: '5 cm', preload: '500 N' })).toBe('')
  })
})

describe('what if', () => {
  test('an override stands beside what was declared', () => {
    const [entry] = energySheet([link], { whatIf: whatIf('voltage=750V') }).entries
    expect(entry?.parameters.find(({ name }) => name === 'voltage')).toMatchObject({
      text: '750 V',
      insteadOf: '930 V dc ± 5 %'
    })
    expect(entry?.energy).toMatchObject({ calculation: { worst: 0.5 * 0.01128 * 750 ** 2 } })
  })

  test('parameters that no front matter has make the venting of a vessel computable', () => {
    const time = (texts: readonly string[]) => energySheet([air], { whatIf: whatIf(...texts) }).entries[0]?.time
    expect(time([])).toMatchObject({
      kind: 'not-computable',
      missing: ['bleed-bore', 'temperature', 'discharge-coefficient', 'gas']
    })
    const given = time(['bleed-bore=4 mm', 'temperature=20 °C', 'discharge-coefficient=0.8', 'gas=air'])
    expect(given).toMatchObject({ kind: 'computed', calculation: { id: 'gas-venting-isothermal' } })
  })

  test('one that names a source leaves the others', () => {
    const other = { ...link, id: 'second' }
    const [first, second] = energySheet([link, other], { whatIf: whatIf('second.voltage=48 V') }).entries
    expect(first?.wait.grounds.computed).toBeCloseTo(633.6, 1)
    expect(second?.wait.grounds.computed).toBe(0)
  })

  test('what changes nothing, or more than one source, is said', () => {
    const remarks = (...texts: readonly string[]) => energySheet([link, air], { whatIf: whatIf(...texts) }).remarks
    expect(remarks('speed=3000 rpm')).toEqual([
      '`speed=3000 rpm` changes nothing: no source here has a use for `speed`.'
    ])
    expect(remarks('link.voltage=1 V')).toEqual(['`link.voltage=1 V` changes nothing: there is no source `link`.'])
    expect(remarks('air.voltage=1 V')).toEqual([
      '`air.voltage=1 V` changes nothing: a source of kind `gas` has no use for `voltage`.'
    ])
    expect(remarks('voltage=750V')).toEqual([])
    expect(energySheet([link, { ...link, id: 'second' }], { whatIf: whatIf('voltage=750V') }).remarks).toEqual([
      '`voltage=750V` is taken for `dc-link`, `second`: where one of them is meant, write `dc-link.voltage=750V`.'
    ])
  })

  test.each(['voltage', 'voltage:750V', '=750V', 'voltage=750', 'voltage=', 'Voltage=750V'])(
    '%s is refused',
    (text) => {
      expect(parseWhatIf(text).ok).toBe(false)
    }
  )
})

describe('as text and as data', () => {
  test('the whole sheet of one source', () => {
    const load = source('platen', 'gravity', { mass: '1800 kg ± 5 %', height: '1.6 m' })
    expect(formatEnergySheet(energySheet([load], { whatIf: whatIf('height=2 m') }))).toBe(`platen (gravity)
  mass: 1800 kg ± 5 % (3970 lb)
  height: 2 m (6.56 ft)  [what if, in place of 1.6 m]
  Energy of the raised load: 37.07 kJ (27300 ft·lbf), at best 33.54 kJ (24700 ft·lbf)
      m = 1890 kg, from 1710 kg to 1890 kg: mass
      h = 2 m: height
      g = 9.80665 m/s²: g, conventional value, exact (CGPM 1901)
      E = m·g·h
      E = 1890 kg·9.80665 m/s²·2 m = 37069.1 J
      Source: OpenStax College Physics, module m42152
    Comparison: as the fall of 3780 kg (8330 lb) from 1 m
    Magnitude: very dangerous, from 79 J (58.3 ft·lbf): a flying fragment of 79 J (58 ft·lbf) counts as hazardous to life (DoD 6055.9; from memory)
  Time: A raised load stays dangerous until it is lowered or held.

These figures follow from what is declared and from the formulas named, at the worst end of every tolerance. They replace no reading: the rules of the plant, local codes and qualified people come first.
`)
  })

  test('what is missing is named with what it is and where it can be given', () => {
    const text = formatEnergySheet(energySheet([air]))
    expect(text).toContain(
      'not computable, missing bleed-bore (bore of the hole it vents through); temperature; discharge-coefficient (discharge coefficient of the outlet; no key of the front matter: give it as a what-if); gas (which gas it is;'
    )
    expect(text).toContain('γ = 1.4: heat-ratio (assumed), air or nitrogen')
  })

  test('brief leaves the further calculations out', () => {
    const sheet = energySheet([air])
    expect(formatEnergySheet(sheet)).toContain('Brode')
    expect(formatEnergySheet(sheet, { brief: true })).not.toContain('Brode')
    expect(formatEnergySheet(sheet, { brief: true })).toContain('isentropic')
  })

  test('the calculation that is waited for is not printed twice', () => {
    const text = formatEnergySheet(
      energySheet([air], {
        whatIf: whatIf('bleed-bore=4 mm', 'temperature=20 °C', 'discharge-coefficient=0.8', 'gas=air')
      })
    )
    expect(text.split('Time to vent through the bore, isothermal').length).toBe(2)
    expect(text.split('Time to vent through the bore, adiabatic').length).toBe(2)
  })

  test('JSON holds all of it', () => {
    const sheet = energySheet([link, air])
    expect(JSON.parse(JSON.stringify(sheet))).toEqual(sheet)
    expect(JSON.stringify(sheet)).not.toContain('null')
  })
})
