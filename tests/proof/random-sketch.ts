import fc from 'fast-check'

/** What a random front matter declares, and its text. */
export interface Sketch {
  readonly electrical: boolean
  readonly axis: boolean
  readonly start: boolean
  readonly points: readonly string[]
  readonly sources: readonly string[]
  readonly relievable: readonly string[]
  readonly restraints: readonly string[]
  readonly head: string
}

const onlyOne = (on: boolean, value: number): string => (on ? `, only: { model: m${value + 1} }` : '')

const sourceShape = fc.record({
  kind: fc.constantFrom('electrical', 'low', 'capacitor', 'liquid', 'gravity', 'spring', 'battery', 'other'),
  at: fc.array(fc.nat(1), { minLength: 1, maxLength: 2 }),
  feeder: fc.option(fc.nat(2), { nil: null }),
  rebuilds: fc.integer({ min: 0, max: 4 }).map((chance) => chance === 0),
  guarded: fc.boolean(),
  only: fc.integer({ min: 0, max: 5 })
})

const restraintShape = fc.record({
  kind: fc.constantFrom('earth', 'short', 'pin', 'block', 'cover'),
  holds: fc.array(fc.nat(3), { minLength: 1, maxLength: 2 }),
  power: fc.integer({ min: 0, max: 3 }).map((chance) => chance === 0),
  only: fc.integer({ min: 0, max: 7 })
})

const headShape = fc.record({
  electrical: fc.boolean(),
  axis: fc.boolean(),
  start: fc.integer({ min: 0, max: 4 }).map((chance) => chance > 0),
  pointsOff: fc.tuple(fc.integer({ min: 0, max: 4 }), fc.integer({ min: 0, max: 4 })),
  pointOnly: fc.integer({ min: 0, max: 7 }),
  sources: fc.array(sourceShape, { minLength: 1, maxLength: 3 }),
  restraints: fc.array(restraintShape, { maxLength: 2 }),
  leftOn: fc.integer({ min: 0, max: 6 })
})

type HeadShape = typeof headShape extends fc.Arbitrary<infer Shape> ? Shape : never
type SourceShape = HeadShape['sources'][number]

const quantities: Readonly<Record<SourceShape['kind'], string>> = {
  electrical: 'kind: electrical, voltage: 400 V ac, phases: 3',
  low: 'kind: electrical, voltage: 24 V dc, conductors: [P, N]',
  capacitor: 'kind: capacitor, capacitance: 2 mF, voltage: 560 V dc, conductors: [P, N]',
  liquid: 'kind: liquid, pressure: 6 bar',
  gravity: 'kind: gravity, mass: 200 kg, height: 2 m',
  spring: 'kind: spring, rate: 4 N/mm, deflection: 50 mm',
  battery: 'kind: battery, voltage: 96 V dc, conductors: [P, N]',
  other: 'kind: other, describe: a stretched belt, stores: true, relievable: true'
}

function sourceLine(shape: SourceShape, index: number, { axis, pointOnly, sources }: HeadShape): string {
  const parts = [quantities[shape.kind]]
  const feeder = shape.feeder !== null && shape.feeder < index ? shape.feeder : null
  const electrical = shape.kind === 'electrical' || shape.kind === 'low'
  // What feeds it may belong to one generation alone: then P1, which exists on all, must cut it off as well.
  const partial = axis && ((sources[feeder ?? index]?.only ?? 9) < 2 || pointOnly < 2)
  if (electrical || partial || (feeder === null && ['liquid', 'capacitor'].includes(shape.kind))) {
    const points = new Set(partial ? [0, ...shape.at] : shape.at)
    parts.push(`at: [${[...points].map((point) => `P${point + 1}`).join(', ')}]`)
  }
  if (feeder !== null) parts.push(`fed-by: [s${feeder + 1}]`)
  else if (!partial && ['gravity', 'spring', 'other'].includes(shape.kind)) parts.push('unfed: nothing drives it')
  if (shape.rebuilds) parts.push('rebuilds: true')
  if (shape.guarded && electrical) parts.push('guarded: behind a bolted plate')
  return `  s${index + 1}: { ${parts.join(', ')}${onlyOne(axis && shape.only < 2, shape.only)} }`
}

function sketchOf(shape: HeadShape): Sketch {
  const { axis, electrical, start } = shape
  const sources = shape.sources.map((_, index) => `s${index + 1}`)
  const restraints = shape.restraints.map((_, index) => `r${index + 1}`)
  const [firstOff, secondOff] = shape.pointsOff
  const lines = [
    '---',
    'procedure: RANDOM-1',
    'title: A random procedure',
    'revision: 1',
    'equipment: { tag: R-1, name: Test stand, place: Sandholm workshop }',
    'scope: Nothing but tests.',
    `order: ${electrical ? 'electrical' : 'general'}`,
    ...(start ? [] : ['no-start-control: it runs whenever it has power']),
    ...(axis
      ? [
          'hardware:',
          '  model: { ask: Which model?, is: { m1: { name: One, tell: red }, m2: { name: Two, tell: blue } } }'
        ]
      : []),
    'energy:',
    ...shape.sources.map((source, index) => sourceLine(source, index, shape)),
    'points:',
    `  P1: { is: switch, where: left, safe: down${firstOff === 0 ? ', normal: off' : ''} }`,
    `  P2: { is: valve, where: right, safe: across${secondOff === 0 ? ', normal: off' : ''}${onlyOne(axis && shape.pointOnly < 2, shape.pointOnly)} }`,
    ...(restraints.length === 0 ? [] : ['restraints:']),
    ...shape.restraints.map((restraint, index) => {
      const held = [...new Set(restraint.holds.map((hold) => sources[hold % sources.length]))].join(', ')
      const power =
        restraint.power && ['pin', 'block'].includes(restraint.kind) ? ', needs-power: the load rests on it' : ''
      return `  r${index + 1}: { kind: ${restraint.kind}, is: a device, holds: [${held}]${power}${onlyOne(axis && restraint.only < 2, restraint.only)} }`
    }),
    'roles:',
    '  expert: { name: Expert, holds: [electrical], electrical: true }',
    '  owner: { name: Owner }',
    ...(shape.leftOn < sources.length ? [`left-on: { s${shape.leftOn + 1}: { why: needed, permit: allow } }`] : []),
    '---',
    '',
    '# Start',
    '',
    '::tool[Tester]{#tester measures=voltage rated="1000 V" category=IV}',
    '::wear[Gloves]{#gloves class=0}',
    ''
  ]
  const relievable = sources.filter((_, index) => {
    const kind = shape.sources[index]?.kind
    return kind !== 'electrical' && kind !== 'low' && kind !== 'battery'
  })
  return { electrical, axis, start, points: ['P1', 'P2'], sources, relievable, restraints, head: lines.join('\n') }
}

/** Small front matters of both orders: one to three sources, two points, up to two restraints. */
export const randomSketch: fc.Arbitrary<Sketch> = headShape.map(sketchOf)
