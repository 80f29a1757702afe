import { plainText } from '@lockwright/language'
import { describe, expect, it } from 'vitest'
import { findingsOf, machineOf, verdictOf } from './compile-text.js'

// Repairs go round: a remedy, a test with power on, a full lockout again, the next remedy. No way round may bring a
// machine that is live, or was live since the last full lockout, to the hands of the next remedy.

const head = `---
procedure: CUTTER-1
title: Stop the leak of cutter 1
revision: 1
equipment: { tag: C-1, name: Cutter 1, place: Sandholm workshop }
scope: A leak at the clamp.
hardware:
  series: { ask: Which series?, is: { old: { name: Old, tell: bolts }, new: { name: New, tell: lever } } }
energy:
  mains: { kind: electrical, voltage: 400 V ac, phases: 3, at: [Q1] }
  air: { kind: gas, volume: 20 L, pressure: 7 bar, at: [V1] }
points:
  Q1: { is: switch-disconnector, where: left end, safe: handle at O }
  V1: { is: ball valve, where: drop pipe, safe: lever across the pipe }
roles:
  qualified: { name: Qualified electrical person, electrical: true }
---

::tool[Tester]{#tester measures=voltage rated="1000 V" category=IV}
::tool[Gauge]{#gauge measures=pressure range="0 to 10 bar"}
::wear[Gloves]{#gloves class=0}
`

/** The eight steps of a full lockout, each a line. */
const lockout = [
  '::notify[Everyone]',
  '::shutdown',
  '::lock{at="Q1 V1"}',
  '::relieve{of=air with=gauge}',
  '::clear',
  '::tryout',
  '::prove{of=mains with=tester known="the socket" role=qualified wear=gloves}',
  '::prove{of=air with=gauge}'
] as const

/** The six steps of a test with power on. */
const test = [
  '::inspect',
  '::clear',
  '::unlock{at="V1 Q1"}',
  '::notify[Everyone, the locks are off]',
  '::energize{at="V1 Q1"}',
  '::look[The clamp]'
] as const

function section(title: string, steps: readonly string[]): string {
  return `# ${title}\n\n${steps.join('\n\n')}\n`
}

function without(steps: readonly string[], start: string): readonly string[] {
  const left = steps.filter((step) => !step.startsWith(start))
  if (left.length !== steps.length - 1) throw new Error(`not one step begins with ${start}`)
  return left
}

/** `id@text` of each finding, the text being that of the line: what stands there says more than its number. */
function told(text: string): readonly string[] {
  const lines = text.split('\n')
  return findingsOf(verdictOf(text)).map((finding) => {
    const [id, line] = finding.split(':')
    return `${id} @ ${lines[Number(line) - 1]}`
  })
}

function sizeOf(text: string): { readonly states: number; readonly configurations: number } {
  const { kind, report } = verdictOf(text)
  expect([kind, told(text)]).toEqual(['proved', []])
  return { states: report.states, configurations: report.configurations }
}

describe('a ladder of remedies with a lockout again after each', () => {
  const ladder = (relock: readonly string[], retest: readonly string[] = test): string =>
    [
      head,
      section('Lock out', lockout),
      section('First look', ['1. Tighten the clamp.']),
      section('Test', retest),
      section('Lock again', relock),
      section('Put it right', [
        `:::::remedies{retest=test relock=lock-again cured="Is it tight?"}
::::remedy[Seal]
1. Change the seal.
::::
::::remedy[Clamp]
1. Change the clamp.
::::
::::otherwise
::stop[It goes to the workshop]
::::
:::::`
      ])
    ].join('\n')
  const seal = '1. Change the seal.'
  const clamp = '1. Change the clamp.'

  it('is proved where each is complete, its size counted exactly', () => {
    // Gathering; lockout 8, work 1, test 6, lockout 8; for each of two remedies its work, test, question and lockout;
    // the stop and the finish. Each state is met with one ledger: a test leaves what the test before left.
    const states = 1 + 8 + 1 + 6 + 8 + 2 * (1 + 6 + 1 + 8) + 1 + 1
    expect(sizeOf(ladder(lockout))).toEqual({ states, configurations: states })
  })

  it('asks the lockout before the last way out too', () => {
    const states = machineOf(ladder(lockout)).states
    const last = states.find(({ id }) => id === 'put-it-right.1.2.cured')
    const no = last?.exits.find((exit) => exit.on === 'answer' && exit.label === 'No')
    expect(no?.to).toBe('put-it-right.1.2.relock/lock-again.1')
    expect(states.find(({ id }) => id === 'put-it-right.1.2.relock/lock-again.8')?.exits).toEqual([
      { on: 'done', to: 'put-it-right.4' }
    ])
  })

  it.each<[string, readonly string[]]>([
    [
      '::lock',
      [
        // Nothing is locked, so nothing that follows counts either, and the next test finds nothing to unlock.
        `device-state @ ${test[2]}`,
        'relieve-isolated @ ::relieve{of=air with=gauge}',
        'tryout-clear @ ::tryout',
        `void-proof @ ${lockout[6]}`,
        `void-proof @ ${lockout[7]}`,
        `relock-after-test @ ${seal}`,
        `relock-after-test @ ${clamp}`,
        'stop-safe @ ::stop[It goes to the workshop]'
      ]
    ],
    [
      '::relieve',
      [
        `void-proof @ ${lockout[7]}`,
        `work-released @ ${seal}`,
        `work-released @ ${clamp}`,
        'stop-safe @ ::stop[It goes to the workshop]'
      ]
    ],
    ['::tryout', [`tryout-done @ ${seal}`, `tryout-done @ ${clamp}`]],
    ['::prove{of=mains', [`work-proven @ ${seal}`, `work-proven @ ${clamp}`]],
    ['::prove{of=air', [`work-proven @ ${seal}`, `work-proven @ ${clamp}`]]
  ])('is refused where the second lockout forgets %s', (start, expected) => {
    expect(told(ladder(without(lockout, start)))).toEqual(expected)
  })

  it('is refused where the second lockout locks one device of two', () => {
    const relock = lockout.map((step) => (step.startsWith('::lock') ? '::lock{at=Q1}' : step))
    expect(told(ladder(relock))).toContain(`relock-after-test @ ${seal}`)
  })

  it('is refused where the second lockout locks on one generation alone, with a path of the other', () => {
    const relock = lockout.flatMap((step) =>
      step.startsWith('::lock') ? ['::identify{hardware=series}', `::::only{series=old}\n${step}\n::::`] : [step]
    )
    const text = ladder(relock)
    expect(told(text)).toContain(`relock-after-test @ ${seal}`)
    const verdict = verdictOf(text)
    const found = verdict.kind === 'refused' ? verdict.diagnostics : []
    const path = found.find(({ id }) => id === 'relock-after-test')?.path ?? []
    expect(path.map(({ title }) => title)).toContain('Identify the series: new')
  })

  it('is refused with a second test in the middle of a remedy and no lockout behind it', () => {
    const between = (repeats: string): string =>
      ladder(lockout).replace(clamp, `1. Loosen the clamp.\n\n${repeats}\n\n${clamp}`)
    expect(told(between('::repeat{section=test}'))).toEqual([
      // The test behind the remedy finds nothing locked that it could unlock.
      `device-state @ ${test[2]}`,
      `relock-after-test @ ${clamp}`,
      `tryout-done @ ${clamp}`
    ])
    // Two repeats more, of six and eight states, and the work before them.
    const states = machineOf(ladder(lockout)).states.length + 1 + 6 + 8
    expect(sizeOf(between('::repeat{section=test}\n\n::repeat{section=lock-again}'))).toEqual({
      states,
      configurations: states
    })
  })

  it('is refused where the test leaves a reading out of limits to bare hands', () => {
    const reading = (inside: string): readonly string[] => [
      ...test,
      `::::measure[Pressure]{unit=bar min=6 max=8 from="the panel"}\n:::outside\n${inside}\n:::\n::::`
    ]
    const hands = '1. Turn the regulator.'
    expect(told(ladder(lockout, reading(hands)))).toContain(`relock-after-test @ ${hands}`)
    const stop = '::stop[The regulator is set; the press stays out of service]'
    const text = ladder(lockout, reading(`::repeat{section=lock-out}\n\n${hands}\n\n${stop}`))
    // The reading is taken three times, and each time the way out of limits is a lockout, the work and a stop.
    const states = machineOf(ladder(lockout)).states.length + 3 * (1 + 8 + 1 + 1)
    expect(sizeOf(text)).toEqual({ states, configurations: states })
  })
})

describe('a loop through an earlier step', () => {
  const loop = (to: string): string =>
    [
      head,
      section('Lock out', [
        '::notify[Everyone]{#again}',
        '::shutdown{#off}',
        ...lockout.slice(2, 5),
        '::tryout{#try}',
        lockout[6],
        `${lockout[7].replace('}', ' #dead}')}`
      ]),
      section('Repair', [':::work{#mend}\n1. Tighten the clamp.\n:::']),
      section('Test', [
        ...test,
        `::::ask[Is it tight?]\n:::answer[Yes]\nGood.\n:::\n:::answer[No]\n::back{to=${to}}\n:::\n::::`
      ])
    ].join('\n')

  it('is proved where it begins with the whole lockout', () => {
    // Gathering, 8, 1, 6, the question, the way back, the finish. On the second round the shutdown and the locking meet
    // the ledger of a machine that was tested: told, inspected, clear, as before the first; only `told` is new at the notify.
    const states = 1 + 8 + 1 + 6 + 1 + 1 + 1
    expect(sizeOf(loop('again'))).toEqual({ states, configurations: states + 1 })
  })

  it.each<[string, readonly string[]]>([
    // On the second round nothing hangs that the test could unlock.
    ['mend', ['device-state', 'relock-after-test', 'tryout-done']],
    ['dead', ['device-state', 'relock-after-test', 'tryout-done', 'void-proof']],
    ['try', ['device-state', 'relock-after-test', 'tryout-clear', 'void-proof']],
    // The notice before the start still stands, for nothing has ended it: the contract asks for no second one.
    ['off', []]
  ])('back to %s fails %j', (to, expected) => {
    const ids = new Set(findingsOf(verdictOf(loop(to))).map((finding) => finding.split(':')[0]))
    expect([...ids].sort()).toEqual(expected)
  })
})

describe('a step that is not done in time', () => {
  const timed = (late: string): string =>
    [
      head,
      section('Lock out', [`::::within{time="20 min"}\n${lockout.join('\n\n')}\n\n:::late\n${late}\n:::\n::::`]),
      section('Repair', ['1. Tighten the clamp.']),
      section('Test', test)
    ].join('\n')

  it('leads nobody from a lockout that was broken off to the work', () => {
    const ids = new Set(told(timed('Somebody is told.')).map((finding) => finding.split(' ')[0]))
    expect([...ids]).toEqual(expect.arrayContaining(['work-isolated', 'work-proven', 'tryout-done']))
  })

  it('may lead to a stop at every step', () => {
    // Gathering and clock, 8, the stop, 1, 6, the finish. Late comes before and behind each of the eight: the stop is met
    // with nine ledgers less one, for people are clear already when the lockout clears them.
    const states = 1 + 1 + 8 + 1 + 1 + 6 + 1
    expect(sizeOf(timed('::stop[It takes too long]'))).toEqual({ states, configurations: states + 7 })
  })
})

describe('prose around a loop', () => {
  it('is shown where the branch or section holds no step', () => {
    const machine = machineOf(
      [
        head,
        section('Test', ['::look[The clamp]']),
        section('Nothing', []),
        section('Put it right', [
          'Before the repeat.',
          '::repeat{section=nothing}',
          'Before the ladder.',
          `:::::remedies{retest=nothing relock=test cured="Is it tight?"}
::::remedy[Seal]
Ask the store for it.
::::
::::otherwise
Call the workshop.
::::
:::::`
        ])
      ].join('\n')
    )
    const shown = machine.states.map(({ intro }) =>
      intro.map((content) => (content.kind === 'paragraph' ? plainText(content.runs) : content.kind)).join(' / ')
    )
    expect(shown.filter((text) => text !== '')).toEqual([
      'Before the repeat.',
      'Before the ladder. / Remedy 1 of 1: Seal / Ask the store for it.',
      'Call the workshop.'
    ])
  })
})
