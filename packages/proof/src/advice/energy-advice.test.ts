import { parseProcedure } from '@lockwright/language'
import { describe, expect, it } from 'vitest'
import { energyAdvice } from './energy-advice.js'

/** A procedure with one energy source, written as in the front matter. */
function adviceOn(source: string): readonly string[] {
  const text = `---
procedure: A1
title: Made for a test
revision: 1
equipment: { tag: A-1, name: Made, place: Nowhere }
scope: Nothing.
energy:
  mains: { kind: electrical, voltage: 400 V ac, phases: 3, at: [Q1] }
  it: { ${source}, fed-by: [mains] }
points:
  Q1: { is: switch, where: wall, safe: handle at O }
---

::shutdown
`
  const parsed = parseProcedure({ file: 'made.md', text })
  if (!parsed.ok) throw new Error(parsed.diagnostics.map(({ what }) => what).join('\n'))
  return energyAdvice(parsed.value).map(({ severity, id, what }) => `${severity} ${id}: ${what}`)
}

const link = 'kind: capacitor, capacitance: 9.4 mF ± 20 %, voltage: 930 V dc ± 5 %, conductors: [DC+, DC-]'

describe('energyAdvice', () => {
  it('has nothing to say of figures that agree', () => {
    expect(adviceOn(`${link}, bleed: 18 kΩ ± 5 %, label-wait: 15 min`)).toEqual([])
    expect(adviceOn(link)).toEqual([])
  })

  it('sets a label against the decay', () => {
    // t = 18.9 kΩ · 11.28 mF · ln(976.5/50) = 633.6 s, by hand.
    expect(adviceOn(`${link}, bleed: 18 kΩ ± 5 %, label-wait: 10 min`)).toEqual([
      'warning label-too-short: The label of `it` asks for a wait of 10 min; what is declared takes up to 10 min 34 s.'
    ])
  })

  it('remarks that a discharge standard stops at 75 V where the label is all there is', () => {
    // IEC 60831-1 and IEC 60871-1 let 75 V stand; 29 CFR 1910.303(g)(2)(i) guards from 50 V.
    const [only, ...more] = adviceOn(`${link}, label-wait: 15 min`)
    expect(only).toContain('advice label-alone: The wait for `it` rests on its label alone.')
    expect(only).toContain('may stand at 75 V')
    expect(more).toEqual([])
    expect(
      adviceOn('kind: capacitor, capacitance: 9.4 mF, voltage: 45 V dc, conductors: [DC+, DC-], label-wait: 15 min')
    ).toEqual([])
    expect(adviceOn(`${link}, label-wait: 15 min, safe-below: 80 V`)).toEqual([])
  })

  it('sets a coast-down against the friction torque', () => {
    // 1.2 kg·m² · 155 rad/s / 2 N·m = 93 s, by hand.
    const rotor = 'kind: rotating, inertia: 1.2 kg m2, speed: 1480 rpm, friction-torque: 2 N·m'
    expect(adviceOn(`${rotor}, coast-down: 30 s`)[0]).toContain('warning coast-down-doubtful')
    expect(adviceOn(`${rotor} ± 10 %, coast-down: 90 s ± 5 %`)).toEqual([])
  })

  it('doubts a preload that the deflection cannot give', () => {
    const spring = 'kind: spring, rate: 50 N/mm, preload: 500 N'
    expect(adviceOn(`${spring}, deflection: 5 mm`)[0]).toContain('warning preload-doubtful')
    expect(adviceOn(`${spring}, deflection: 5 cm`)).toEqual([])
  })

  it('warns of a safe level that burns', () => {
    // ISO 13732-1, bare metal, 1 s: burns from 65 °C, from memory.
    const oven = 'kind: thermal, temperature: 180 °C, surface: bare metal, contact: 1 s'
    expect(adviceOn(`${oven}, safe-below: 90 °C`)[0]).toContain('warning safe-level-burns')
    expect(adviceOn(`${oven}, safe-below: 45 °C`)).toEqual([])
  })
})
