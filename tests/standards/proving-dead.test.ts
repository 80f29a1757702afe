import { prove } from '@lockwright/proof'
import { describe, expect, it } from 'vitest'
import { machineOf } from '../end-to-end/compile-text.js'

// What the published rules ask of a test for the absence of voltage. Beside each stands where it was read
// (standards.md, sections 2.1, 2.3, 4.1 and 4.2).

interface Shape {
  readonly mains?: string
  readonly tester?: string
  readonly gloves?: string
  readonly attributes?: string
}

function textOf({
  mains = 'voltage: 400 V ac, phases: 3',
  tester = 'rated="1000 V" category=IV',
  gloves = '0',
  attributes = 'known="the socket" role=qualified'
}: Shape): string {
  return `---
procedure: PROVE-DEAD
title: Proving dead
revision: 1
equipment: { tag: B-1, name: Panel 1, place: Sandholm pumping station }
scope: Proving one supply dead, and nothing else.
no-start-control: nothing starts
energy:
  mains: { kind: electrical, at: [Q1], ${mains} }
points:
  Q1: { is: switch-disconnector, where: door of the panel, safe: handle at O }
roles:
  qualified: { name: Qualified electrical person, electrical: true }
---

::tool[Tester]{#tester measures=voltage ${tester}}
::wear[Insulating gloves]{#gloves class=${gloves}}

# Lock out

::notify[Everyone]

::shutdown

::lock{at=Q1}

::prove{of=mains with=tester wear=gloves ${attributes}}

# Hand back

::inspect

::clear

::unlock{at=Q1}

::notify[Everyone]

::energize{at=Q1}
`
}

function failing(shape: Shape): readonly string[] {
  const verdict = prove(machineOf(textOf(shape)))
  return verdict.kind === 'refused' ? verdict.diagnostics.map(({ id }) => id) : []
}

describe('how many tests prove a circuit dead', () => {
  // Source: training text on NFPA 70E 120.5(7), read: three tests of a single-phase circuit, ten of three phases with neutral
  // and earth, which are all pairs of the conductors with earth among them.
  it.each([
    ['phases: 1', 3],
    ['phases: 3', 6],
    ['phases: 3, conductors: [L1, L2, L3, N]', 10]
  ])('%s: %i', (conductors, tests) => {
    const shape = { mains: `voltage: 400 V ac, ${conductors}` }
    const inputs = machineOf(textOf(shape)).states.find(({ kind }) => kind === 'prove')?.inputs ?? []
    expect(failing(shape)).toEqual([])
    expect(inputs.filter(({ kind }) => kind === 'reading')).toHaveLength(tests)
    // NFPA 70E 120.5(7), quoted: on a known source before and after each test.
    expect(inputs.map((input) => (input.kind === 'box' ? input.of : input.kind))).toEqual([
      'tester-before',
      ...Array.from({ length: tests }, () => 'reading'),
      'tester-after'
    ])
  })
})

describe('29 CFR 1910.333(b)(2)(iv)', () => {
  it.each(['690 V ac', '400 V ac', '60 V ac'])(
    '(B): the instrument is checked on a known source, at %s too',
    (volts) => {
      // The rule asks it above 600 V; NFPA 70E at any voltage.
      expect(failing({ mains: `voltage: ${volts}, phases: 3`, attributes: 'role=qualified' })).toEqual([
        'tester-proven'
      ])
    }
  )

  it('a qualified person uses the test equipment', () => {
    expect(failing({ attributes: 'known="the socket"' })).toEqual(['proof-qualified'])
  })
})

describe('IEC 61010-2-030: measurement categories', () => {
  // A tester of a lower category than its circuit does not do; nor one of a lower voltage. 1000 V of III and 600 V of IV
  // stand the same impulse, 8000 V, and neither takes the place of the other.
  const order = ['II', 'III', 'IV']
  const ratings = order.flatMap((category) => [600, 1000].map((volts) => ({ category, volts })))
  const pairs = ratings.flatMap((tester) => ratings.map((circuit) => ({ tester, circuit })))
  it.each(pairs)('a tester of $tester.volts V $tester.category at $circuit.volts V $circuit.category', (pair) => {
    const { tester, circuit } = pair
    const fits = tester.volts >= circuit.volts && order.indexOf(tester.category) >= order.indexOf(circuit.category)
    expect(
      failing({
        mains: `voltage: ${circuit.volts} V ac, phases: 3, category: ${circuit.category}`,
        tester: `rated="${tester.volts} V" category=${tester.category}`
      })
    ).toEqual(fits ? [] : ['tester-rated'])
  })
})

describe('29 CFR 1910.137, greatest use voltages (ac column)', () => {
  // Read at second hand; the table is I-4 of the present rule (from memory).
  it.each([
    ['00', 500],
    ['0', 1_000],
    ['1', 7_500],
    ['2', 17_000],
    ['3', 26_500],
    ['4', 36_000]
  ])('class %s up to %i V and no further', (gloves, volts) => {
    const at = (most: number): readonly string[] =>
      failing({ mains: `voltage: ${most} V ac, phases: 3`, tester: 'rated="40 kV" category=IV', gloves })
    expect(at(volts)).toEqual([])
    expect(at(volts + 1)).toEqual(['gloves-rated'])
  })
})
