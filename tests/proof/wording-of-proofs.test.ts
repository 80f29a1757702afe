import type { Machine, State } from '@lockwright/machine'
import { prove } from '@lockwright/proof'
import { describe, expect, it } from 'vitest'
import { machineOf } from '../end-to-end/compile-text.js'
import { type Case, check, gauge, items, panel, textOf } from './wording-case.js'

const known = 'known="the socket"'
const who = 'role=qualified wear=gloves'
const battery = `energy:
  cells: { kind: battery, voltage: 96 V dc, conductors: [P, N] }
restraints:
  mat: { kind: cover, is: insulating cover, holds: [cells] }
roles:
  qualified: { name: Qualified person, electrical: true }`
const earthed = panel.replace('roles:', 'restraints:\n  set: { kind: earth, is: earthing set, holds: [mains] }\nroles:')

/** One source, one proof of it. */
function proving(source: string, attributes: string, tool = ''): Pick<Case, 'head' | 'body'> {
  return {
    head: `no-start-control: none\nenergy:\n  it: { ${source} }\npoints:\n  V1: { is: valve, where: left, safe: across }`,
    body: `${tool}\n\n::prove{of=it ${attributes}} <<<`
  }
}

describe('words of who tests, with what and in what', () => {
  const cases: readonly Case[] = [
    {
      name: 'nobody named at the test, and nobody qualified declared',
      head: `no-start-control: none\nenergy:\n  mains: { kind: electrical, voltage: 400 V ac, phases: 3, at: [Q1] }\npoints:\n  Q1: { is: switch, where: door, safe: off }`,
      body: `${items}\n\n::prove{of=mains with=tester ${known} wear=gloves} <<<`,
      id: 'proof-qualified',
      what: 'The step does not say who does it, and `mains` counts as live until it is proven dead.',
      mend: 'Declare the qualified role under `roles:` with `electrical: true`, and name it here: `role=`.'
    },
    {
      name: 'the owner earths',
      head: earthed,
      body: `${items}\n\n::restrain{with=set role=owner wear=gloves} <<<`,
      id: 'proof-qualified',
      what: '`owner` does this at `mains`, and is not declared `electrical: true`.',
      mend: 'Name who is qualified: `role=qualified`.'
    },
    {
      name: 'a discharge by hand that nobody is named for',
      head: panel,
      body: `${items}\n::tool[Discharge rod]{#rod}\n\n::relieve{of=dc-link with=rod wear=gloves} <<<`,
      id: 'proof-qualified',
      what: 'The step does not say who does it, and `dc-link` counts as live until it is proven dead.'
    },
    {
      name: 'a battery covered with bare hands',
      head: battery,
      body: '::restrain{with=mat role=qualified} <<<',
      id: 'gloves-rated',
      what: 'Nobody wears insulating gloves with a class here, and `cells` may still be live.',
      mend: 'List the gloves with their class, `::wear[...]{#gloves class=0}`, and name them here: `wear=gloves`.'
    },
    {
      name: 'a battery above every class, covered in two pairs',
      head: battery.replace('96 V', '60 kV'),
      body: '::wear[Gloves]{#low class=00}\n::wear[Gloves]{#high class=4}\n\n::restrain{with=mat role=qualified wear="low high"} <<<',
      id: 'gloves-rated',
      what: '`low`, class 00, may be used up to 750 V dc; `cells` can reach 60000 V dc. `high`, class 4, may be used up to 54000 V dc; `cells` can reach 60000 V dc.',
      mend: 'No class of gloves is made for 60000 V dc: this cannot be done by hand.'
    },
    {
      name: 'a proof without a tester for voltage',
      head: panel,
      body: `${items}\n${gauge}\n\n::prove{of="mains dc-link" with=gauge ${who}} <<<`,
      id: 'tester-proven',
      what: 'The proof of `mains` and `dc-link` lacks a voltage tester (`with=`) and the known source that the tester is proven on (`known=`).'
    },
    {
      name: 'a tester that says nothing of itself',
      head: panel,
      body: `::tool[Tester]{#tester measures=voltage}\n::wear[Gloves]{#gloves class=0}\n\n::prove{of=mains with=tester ${known} ${who}} <<<`,
      id: 'tester-rated',
      what: '`tester` does not say up to which voltage it may be used. `tester` does not say for which measurement category it is built.',
      mend: 'Write `rated="1000 V"`, as printed on it or on its leads: the lower of the two. Write `category=III` if that is printed on it and on its leads.'
    },
    {
      name: 'a tester that is rated in amperes',
      head: panel,
      body: `::tool[Tester]{#tester measures=voltage rated="1000 A" category=IV}\n::wear[Gloves]{#gloves class=0}\n\n::prove{of=mains with=tester ${known} ${who}} <<<`,
      id: 'tester-rated',
      what: '`tester` is rated 1000 A, which is not a voltage.'
    },
    {
      name: 'a tester for alternating voltage alone at a DC link, and of a low category',
      head: panel,
      body: `::tool[Tester]{#tester measures=voltage rated="690 V ac" category=II}\n::wear[Gloves]{#gloves class=0}\n\n::prove{of=dc-link with=tester ${known} ${who}} <<<`,
      id: 'tester-rated',
      what: '`tester` is rated 690 V ac; `dc-link` can reach 565 V dc. `tester` is of category II; the circuit of `dc-link` is of category III, as nothing else is declared.',
      mend: 'Take a tester that is rated for at least 565 V dc. Take a tester of category III or higher.'
    },
    {
      name: 'a conductor named twice',
      ...proving('kind: electrical, voltage: 24 V ac, conductors: [A, a], at: [V1]', 'with=tester', items),
      id: 'conductors-covered',
      what: '`it` names the conductor `a` twice, so which pairs have to be tested is not known.'
    },
    {
      name: 'earth among the conductors',
      ...proving('kind: electrical, voltage: 24 V ac, conductors: [A, B, Earth], at: [V1]', 'with=tester', items),
      id: 'conductors-covered',
      what: '`it` names earth among its conductors, so which pairs have to be tested is not known.'
    },
    {
      name: 'a single conductor of a single phase',
      ...proving('kind: electrical, voltage: 24 V ac, phases: 1, conductors: [L], at: [V1]', 'with=tester', items),
      id: 'conductors-covered',
      what: '`it` names a single conductor for one phase, so which pairs have to be tested is not known.'
    },
    {
      name: 'electricity proven by trial',
      ...proving('kind: electrical, voltage: 24 V ac, phases: 1, at: [V1]', 'by=trial'),
      id: 'conductors-covered',
      what: '`it` is proven by trial, and no conductor of it is tested.'
    },
    {
      name: 'low voltage tested with a gauge',
      ...proving('kind: electrical, voltage: 24 V ac, phases: 1, at: [V1]', 'with=gauge', gauge),
      id: 'gauge-fits',
      what: 'No instrument is named that measures the voltage of `it`.',
      mend: 'Name an instrument with `with=` whose `::tool` says `measures=voltage`.'
    },
    {
      name: 'pressure proven by trial',
      ...proving('kind: gas, volume: 4 L, pressure: 6 bar, at: [V1]', 'by=trial'),
      id: 'gauge-fits',
      what: '`it` is proven by trial, and a trial shows nothing of a source of kind gas.',
      mend: 'Prove it with an instrument: `with=`.'
    },
    {
      name: 'a gauge whose range is not written',
      ...proving('kind: liquid, pressure: 6 bar, at: [V1]', 'with=dial', '::tool[Dial]{#dial measures=pressure}'),
      id: 'gauge-fits',
      what: 'The range of `dial` does not hold both the 6 bar that `it` can hold and the 0.1 bar that it has to be below.'
    },
    {
      name: 'a gauge that ends where the tolerance does not',
      ...proving('kind: liquid, pressure: 10 bar ± 5 %, at: [V1]', 'with=gauge', gauge),
      id: 'gauge-fits',
      what: 'The range of `gauge` does not hold both the 10 bar ± 5 % that `it` can hold and the 0.1 bar that it has to be below.'
    },
    {
      name: 'two gauges of which neither shows both ends',
      ...proving(
        'kind: liquid, pressure: 60 bar, at: [V1]',
        'with="gauge big"',
        `${gauge}\n::tool[Big]{#big measures=pressure range="5 to 100 bar"}`
      ),
      id: 'gauge-fits',
      what: 'The range of `gauge` or `big` does not hold both the 60 bar that `it` can hold and the 0.1 bar that it has to be below.'
    },
    {
      name: 'a spring whose force is measured',
      ...proving(
        'kind: spring, rate: 4 N/mm, deflection: 50 mm, preload: 30 N, safe-below: 5 N, unfed: wound by hand',
        'with=scale',
        '::tool[Spring scale]{#scale measures=force range="0 to 200 N"}'
      ),
      id: 'gauge-fits',
      what: 'The range of `scale` does not hold both the 230 N that `it` can hold and the 5 N that it has to be below.'
    },
    {
      name: 'a load that nothing says the safe height of',
      ...proving(
        'kind: gravity, mass: 90 kg, height: 2 m, unfed: nothing lifts it',
        'with=rule',
        '::tool[Rule]{#rule measures=height range="0 to 3 m"}'
      ),
      id: 'gauge-fits',
      what: 'Nothing says below which reading `it` counts as dead.',
      mend: 'Declare `safe-below:` at `it`, or prove it `by=trial`.'
    },
    {
      name: 'energy of another kind and a tool that measures nothing',
      ...proving(
        'kind: other, describe: a stretched belt, stores: true, relievable: true, unfed: it lies still',
        'with=hook',
        '::tool[Hook]{#hook}'
      ),
      id: 'gauge-fits',
      what: 'No instrument is named that measures what `it` holds.',
      mend: 'Name an instrument with `with=`, and say at its `::tool` what it measures: `measures=`.'
    },
    {
      name: 'a wait below the label',
      head: panel,
      body: '::relieve{of=dc-link wait="9 min"} <<<',
      id: 'wait-enough',
      what: 'The step waits 9 min for `dc-link`; its label asks for 10 min.',
      mend: 'Write `wait="600 s"` or more, or leave `wait=` out: the longest is asked for by itself.'
    },
    {
      name: 'a plate that nobody says how long to let cool',
      ...proving('kind: thermal, temperature: 180 °C, at: [V1]', 'with=gauge', gauge),
      body: '::relieve{of=it} <<<',
      id: 'wait-enough',
      what: 'Nothing says how the energy of `it` is let out, or how long that takes. It cannot be computed without ambient and time-constant.'
    },
    {
      name: 'a drum of which nobody knows how it comes to rest',
      ...proving('kind: rotating, inertia: 4 kg m2, speed: 900 rpm, at: [V1]', 'by=trial'),
      body: '::relieve{of=it} <<<',
      id: 'wait-enough',
      what: 'Nothing says how the energy of `it` is let out, or how long that takes. It cannot be computed without friction-torque, or a measured `coast-down`.',
      mend: 'Name the tool with which it is let out (`with=`), measure the time to standstill and write it as `coast-down:` at the source, or write how long to wait: `wait=`.'
    },
    {
      name: 'a raised load that is lowered with nothing',
      ...proving('kind: gravity, mass: 90 kg, height: 2 m, unfed: nothing lifts it', 'by=trial'),
      body: '::relieve{of=it} <<<',
      id: 'wait-enough',
      what: 'Nothing says how the energy of `it` is let out, or how long that takes.'
    }
  ]
  it.each(cases)('$name', (one) => {
    check(one)
  })

  it.each<[string, Pick<Case, 'head' | 'body'>]>([
    [
      'a gauge that reads from below nothing to above everything',
      proving(
        'kind: liquid, pressure: 10 bar ± 5 %, at: [V1]',
        'with=g',
        '::tool[G]{#g measures=pressure range="-1 to 16 bar"}'
      )
    ],
    [
      'a spring scale that holds the worst force',
      proving(
        'kind: spring, rate: 4 N/mm, deflection: 50 mm, preload: 30 N, safe-below: 5 N, unfed: wound by hand',
        'with=scale',
        '::tool[Spring scale]{#scale measures=force range="0 to 300 N"}'
      )
    ],
    ['a coupling that is tried', proving('kind: rotating, inertia: 1 kg m2, speed: 1480 rpm, at: [V1]', 'by=trial')]
  ])('lets %s pass', (_name, one) => {
    const text = textOf({ ...one, body: one.body.replace(' <<<', ''), name: '', id: '', what: '' })
    const outcome = prove(machineOf(text)).report.obligations.find(({ id }) => id === 'gauge-fits')?.outcome
    expect(outcome).toBe('holds')
  })
})

describe('a machine that was read from a file', () => {
  const text = textOf({
    head: panel,
    body: `${items}\n\n::relieve{of=dc-link}\n\n::prove{of="mains dc-link" with=tester ${known} ${who}}`,
    name: '',
    id: '',
    what: ''
  })
  const machine = machineOf(text)

  /** What is said of one obligation once a kind of step asks for less than the compiler wrote. */
  const saidOf = (id: string, kind: State['kind'], drop: (input: State['inputs'][number]) => boolean): string[] => {
    const states = machine.states.map((state) =>
      state.kind === kind ? { ...state, inputs: state.inputs.filter((input) => !drop(input)) } : state
    )
    const verdict = prove({ ...machine, states } as Machine)
    return verdict.kind === 'refused' ? verdict.diagnostics.filter((one) => one.id === id).map(({ what }) => what) : []
  }

  it('has every input that the compiler wrote', () => {
    const none = (): boolean => false
    expect(saidOf('tester-proven', 'prove', none)).toEqual([])
    expect(saidOf('conductors-covered', 'prove', none)).toEqual([])
    expect(saidOf('wait-enough', 'relieve', none)).toEqual([])
  })

  it.each(['tester-before', 'tester-after'] as const)('lacks the box %s', (box) => {
    const when = box === 'tester-before' ? 'before' : 'after'
    expect(saidOf('tester-proven', 'prove', (input) => input.kind === 'box' && input.of === box)).toEqual([
      `The proof of \`mains\` and \`dc-link\` lacks the trial of the tester ${when}.`
    ])
  })

  it.each(['mains: L1 to L3', 'mains: L2 to earth', 'dc-link: P to N'])('lacks the reading %s', (label) => {
    const [source = '', pair = ''] = label.split(': ')
    expect(saidOf('conductors-covered', 'prove', (input) => input.kind === 'reading' && input.label === label)).toEqual(
      [`\`${source}\` is not tested ${pair}.`]
    )
  })

  it('lacks the wait', () => {
    expect(saidOf('wait-enough', 'relieve', (input) => input.kind === 'wait')).toEqual([
      'The step asks for a wait of 0 s for `dc-link`; 10 min are needed.'
    ])
  })
})
