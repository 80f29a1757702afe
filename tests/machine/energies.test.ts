import { energySheet } from '@lockwright/energy'
import { parseProcedure } from '@lockwright/language'
import { type Machine, writtenWaits } from '@lockwright/machine'
import { compile } from '@lockwright/machine/lower'
import { describe, expect, it } from 'vitest'

const text = `---
procedure: O1-OVEN
title: Look into oven 1
revision: 1
equipment: { tag: O-1, name: Oven 1, place: Sandholm workshop }
scope: Nothing but looking.
energy:
  mains: { kind: electrical, voltage: 400 V ac, phases: 3, at: [Q1] }
  heat:
    kind: thermal
    fed-by: [mains]
    temperature: 180 °C
    ambient: 30 °C
    time-constant: 20 min
    surface: bare metal
    contact: 1 s
points:
  Q1: { is: switch, where: wall, safe: handle at O }
---

::shutdown
::relieve{of=heat wait="2 h"}
::relieve{of=heat wait="90 min"}
`

function compiled(): Machine {
  const parsed = parseProcedure({ file: 'oven.md', text })
  if (!parsed.ok) throw new Error(parsed.diagnostics.map(({ what }) => what).join('\n'))
  const machine = compile(parsed.value)
  if (!machine.ok) throw new Error(machine.diagnostics.map(({ what }) => what).join('\n'))
  return machine.value
}

describe('the sources of a machine', () => {
  it('keep what a calculation needs, surface and contact of a hot one as well, also through JSON', () => {
    const { sources } = JSON.parse(JSON.stringify(compiled())) as Machine
    expect(sources.map(({ surface, contact }) => [surface, contact])).toEqual([
      [undefined, undefined],
      ['bare metal', '1 s']
    ])
    const heat = energySheet(sources).entries[1]
    expect(heat?.findings.join(' ')).toContain('Touch threshold: bare metal')
    // 20 min · ln(150/18), Newton cooling from 180 °C down to 48 °C at 30 °C around, by hand.
    expect(heat?.wait.grounds.computed).toBeCloseTo(1200 * Math.log(150 / 18), 6)
  })
})

describe('writtenWaits', () => {
  it('takes the shortest of the waits that are written for a source', () => {
    expect(Object.entries(writtenWaits(compiled())).map(([id, { written }]) => [id, written])).toEqual([
      ['heat', '90 min']
    ])
  })
})
