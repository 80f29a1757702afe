import { readFileSync } from 'node:fs'
import { parseProcedure } from '@lockwright/language'
import type { Machine } from '@lockwright/machine'
import { compile } from '@lockwright/machine/lower'
import { type Change, compare, formatComparison, loosens } from '@lockwright/proof'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { machineOf } from '../end-to-end/compile-text.js'
import { randomProcedure } from './random-procedure.js'

const seed = 20_260_422
const example = readFileSync(new URL('../fixtures/contract-example.md', import.meta.url), 'utf8')

/** The example with stretches of it replaced; each must be there. */
function edited(...edits: readonly (readonly [string, string])[]): string {
  return edits.reduce((text, [from, to]) => {
    if (!text.includes(from)) throw new Error(`not in the example: ${from}`)
    return text.replace(from, to)
  }, example)
}

function changesOf(next: string, old = example): readonly string[] {
  return compare(machineOf(old), machineOf(next)).changes.map(({ tendency, what }) => `${tendency}: ${what}`)
}

/** What one edit changes, whatever came of the proof. */
function one(...edits: readonly (readonly [string, string])[]): readonly string[] {
  return changesOf(edited(...edits)).filter((change) => !/^\w+: `[a-z-]+` (holds|is|does)/.test(change))
}

/** What a change is, whichever revision is the old one. */
function bare({ tendency, topic, old, next }: Change, swapped: boolean): string {
  const opposite = { tightening: 'loosening', loosening: 'tightening', neutral: 'neutral' } as const
  const places = (swapped ? [next, old] : [old, next]).map((span) => span?.line ?? 0).join(' ')
  return `${swapped ? opposite[tendency] : tendency} ${topic} ${places}`
}

function expectSwapped(one: Machine, other: Machine): readonly Change[] {
  const { changes } = compare(one, other)
  const back = compare(other, one).changes
  expect(back.map((change) => bare(change, true)).sort()).toEqual(changes.map((change) => bare(change, false)).sort())
  return changes
}

describe('compare', () => {
  it.each([
    ['the example', example],
    ...['baling-press-platen', 'booster-pump-precharge'].map((name) => [
      name,
      readFileSync(new URL(`../../procedures/${name}.md`, import.meta.url), 'utf8')
    ])
  ])('finds nothing between %s and itself', (_, text = '') => {
    expect(changesOf(text, text)).toEqual([])
  })

  it('takes rewording, moving and renaming for no change', () => {
    expect(
      changesOf(
        edited(
          [
            'Turn the handle to O. The window behind it shows three open blades.',
            'Turn it to O, and look at the blades.'
          ],
          ['title: Replace the pre-charge module of booster pump 2', 'title: New pre-charge module for booster pump 2'],
          ['revision: 3', 'revision: 4'],
          ['# Lock out', '# Shut it down and lock it']
        )
      )
    ).toEqual([])
    // Two locks in one step or in two, and the water proven before the rotor.
    expect(changesOf(edited(['::lock{at="Q2 V1"}', '::lock{at=V1}\n\n::lock{at=Q2}']))).toEqual([])
    const rotor = ':::prove{of=rotor by=trial}\nTry to turn the coupling by hand against the pin.\n:::\n\n'
    expect(
      changesOf(edited([rotor, ''], ['::prove{of=water with=gauge}\n\n', `::prove{of=water with=gauge}\n\n${rotor}`]))
    ).toEqual([])
    expect(
      changesOf(
        example.replaceAll('shaft-pin', 'coupling-pin').replaceAll('dc-link', 'link-capacitors').replaceAll('V1', 'V7')
      )
    ).toEqual([])
    expect(
      changesOf(example.replaceAll('series-s', 'series-one').replaceAll('qualified', 'expert').replaceAll('Q1', 'QA'))
    ).toEqual([])
    expect(
      changesOf(edited(['690 V ac', '0.69 kV ac'], ['unit=V min=880 max=980', 'unit=kV min=0.88 max=0.98']))
    ).toEqual([])
  })

  it('says of each change in meaning what it is and which way it goes', () => {
    expect(one(['max=980', 'max=990'])).toEqual([
      'loosening: Measuring, highest reading that passes: 980 V before, 990 V now.'
    ])
    expect(one(['min=880', 'min=0.9'], ['max=980', 'max=0.95'], ['unit=V', 'unit=kV'])).toEqual([
      'tightening: Measuring, highest reading that passes: 980 V before, 0.95 kV now.',
      'tightening: Measuring, lowest reading that passes: 880 V before, 0.9 kV now.'
    ])
    expect(one(['safe-below: 50 V', 'safe-below: 60 V'])).toEqual([
      'loosening: Source `dc-link`, level that counts as safe: 50 V before, 60 V now.',
      ...['loosening: Proving dead `dc-link`, level that it has to be below: 50 V before, 60 V now.']
    ])
    expect(one(['    safe-below: 50 V\n', ''])).toEqual([])
    expect(one(['label-wait: 15 min', 'label-wait: 20 min'])).toEqual([
      "tightening: Source `dc-link`, wait on the equipment's label: 15 min before, 20 min now.",
      'tightening: Letting out `dc-link`, wait: 15 min before, 20 min now.'
    ])
    expect(one(['930 V dc ± 5 %', '930 V dc ± 2 %'])).toEqual([
      'loosening: Source `dc-link`, worst-case voltage: 930 V dc ± 5 % before, 930 V dc ± 2 % now.'
    ])
    expect(one(['holds: [electrical-lv]', 'holds: [electrical-lv, first-aid]'])).toEqual([
      'tightening: Role `qualified`, qualifications: `first-aid` as well.'
    ])
    expect(one(['rated="1000 V"', 'rated="1500 V"'], ['class=0', 'class=00'])).toEqual([
      'loosening: Protective equipment `gloves`, class: 0 before, 00 now.',
      'tightening: Tool `tester`, rating: 1000 V before, 1500 V now.'
    ])
    expect(one(['::restrain{with=earths role=qualified wear=gloves}', '::restrain{with=earths wear=gloves}'])).toEqual([
      'loosening: Putting on `earths`, who does it: `qualified` before, anyone now.'
    ])
    expect(one(['known="the 230 V socket by the door" ', ''])).toContain(
      'loosening: Proving dead `mains`, tester proven on a known source: yes before, no now.'
    )
    expect(one(['scope: Repl', 'review: P2Y\nscope: Repl'])).toEqual([
      'loosening: Procedure, time between inspections: P1Y before, P2Y now.'
    ])
    expect(
      one(['scope: Repl', 'waive: [{ obligation: gathered-first, why: kept there, by: M. Berg }]\nscope: Repl'])
    ).toEqual(['loosening: Waiver of `gathered-first` is new.'])
    expect(one([':::danger[Stored charge]', ':::notice[Stored charge]'])).toEqual([
      'loosening: A message of the word notice, its word: danger before, notice now.'
    ])
    expect(one(['at: [V1], safe-below', 'at: [V1, Q2], safe-below'])).toContain(
      'tightening: Source `water`, devices that cut it off: `Q2` as well.'
    )
    expect(one(['holds: [mains, dc-link]', 'holds: [mains, dc-link, control]'])).toContain(
      'loosening: Restraint `earths`, sources that it is trusted to hold: `control` as well.'
    )
    expect(one([':::clear\nNobody near the coupling or inside the fence.\n:::\n\n', ''])).toContain(
      'loosening: Clearing people is gone.'
    )
    expect(one([':::answer[Anything else]', ':::answer[Nothing]\n:::\n:::answer[Anything else]'])).toEqual([
      'neutral: A question, answers: 2 before, 3 now.'
    ])
  })

  it('shows a way that comes to a step past a gate, although no gate is lost', () => {
    const lock = ':::tryout\n1. Press Start on the door panel: nothing moves.\n2. Press Stop.\n:::\n'
    const text = edited([
      lock,
      `::::ask[Is the panel dark?]\n:::answer[No]\n${lock.replaceAll(':::', '::::::')}\n:::\n:::answer[Yes]\n:::\n::::\n`
        .replaceAll('::::::', 'XX')
        .replaceAll(':::answer', '::::answer')
        .replaceAll(/^:::$/gm, '::::')
        .replaceAll('::::ask', ':::::ask')
        .replace(/^::::\n$/m, ':::::\n')
        .replaceAll('XX', ':::')
    ])
    expect(text).toContain('ask')
    const { changes } = compare(machineOf(example), machineOf(text))
    const way = changes.find(({ topic }) => topic === 'way')
    expect(way?.tendency).toBe('loosening')
    expect(way?.what).toMatch(/^Some way to .* now goes without this: trying the start control\.$/)
    expect(way?.way.map(({ title }) => title)).toContain('Is the panel dark?')
    expect(way?.way.map(({ title }) => title)).not.toContain('Try the start control')
  })

  it('says which generations a way is on', () => {
    const lock = '::lock{at="Q2 V1"}'
    const { changes } = compare(
      machineOf(example),
      machineOf(edited([lock, `::lock{at=Q2}\n\n:::only{cabinet=series-s}\n::lock{at=V1}\n:::`]))
    )
    const way = changes.find(({ topic, what }) => topic === 'way' && what.includes('locking `V1`'))
    expect(way?.why).toBe('Before, every way had it, on cabinet series-t.')
  })

  it('tells an obligation that arises no more', () => {
    const old = machineOf(example)
    const next = machineOf(
      example
        .replace('  earths:    { kind: earth, is: three-phase earthing set, holds: [mains, dc-link] }\n', '')
        .replace('::restrain{with=earths role=qualified wear=gloves}\n', '')
        .replace('::remove{restraint=earths}\n', '')
    )
    expect(compare(old, next).changes.map(({ tendency, what }) => `${tendency}: ${what}`)).toContain(
      'loosening: `ground-after-proof` holds in the old revision and does not arise in the new one.'
    )
  })

  it('marks both places, sorts, and is told so that a person can read it', () => {
    const comparison = compare(
      machineOf(example),
      machineOf(
        edited(['max=980', 'max=990'], ['revision: 3', 'revision: 4'], ['label-wait: 15 min', 'label-wait: 20 min'])
      )
    )
    expect(loosens(comparison)).toBe(true)
    expect(loosens(compare(machineOf(example), machineOf(edited(['max=980', 'max=970']))))).toBe(false)
    expect(
      formatComparison(comparison, { old: 'a.md', next: 'b.md' })
    ).toBe(`P202-PRECHARGE revision 3 (a.md) to P202-PRECHARGE revision 4 (b.md)

Loosened: less is asked than before (1)

  Measuring, highest reading that passes: 980 V before, 990 V now.
    Readings pass that did not.
    old line 168, new line 168

Tightened: more is asked than before (2)

  Source \`dc-link\`, wait on the equipment's label: 15 min before, 20 min now.
    The wait that is asked for is at least as long.
    old line 17, new line 17

  Letting out \`dc-link\`, wait: 15 min before, 20 min now.
    More time passes before what follows.
    old line 93, new line 93
`)
    expect(formatComparison(compare(machineOf(example), machineOf(example)))).toContain('Nothing changed in meaning.\n')
  })

  it(`of a random procedure and itself finds nothing, and of two edits the same both ways round (seed ${seed})`, () => {
    let compared = 0
    const tendencies = new Set<string>()
    const topics = new Set<string>()
    const edit = fc.record({ how: fc.constantFrom('drop', 'move', 'double'), at: fc.nat(40), to: fc.nat(40) })
    fc.assert(
      fc.property(
        randomProcedure,
        fc.array(edit, { minLength: 1, maxLength: 4 }),
        fc.nat(9),
        ({ text }, edits, digit) => {
          const old = machineOf(text)
          expect(compare(old, old).changes).toEqual([])
          const next = machineOrNull(mangledText(text, edits, digit))
          fc.pre(next !== null)
          for (const { tendency, topic } of expectSwapped(old, next as Machine)) {
            tendencies.add(tendency)
            topics.add(topic)
          }
          compared += 1
        }
      ),
      { seed, numRuns: 120 }
    )
    expect(compared).toBe(120)
    expect([...tendencies].sort()).toEqual(['loosening', 'neutral', 'tightening'])
    expect([...topics].sort()).toEqual(expect.arrayContaining(['obligation', 'point', 'source', 'step', 'way']))
  })

  it(`of two procedures that have nothing to do with each other says the same both ways round (seed ${seed})`, () => {
    fc.assert(
      fc.property(randomProcedure, randomProcedure, (one, other) => {
        expect(expectSwapped(machineOf(one.text), machineOf(other.text))).toBeInstanceOf(Array)
      }),
      { seed, numRuns: 40 }
    )
  })
})

interface Edit {
  readonly how: 'drop' | 'move' | 'double'
  readonly at: number
  readonly to: number
}

/** Paragraphs of the body dropped, moved or doubled, and a declaration changed. */
function mangledText(text: string, edits: readonly Edit[], digit: number): string {
  const [head = '', ...rest] = text.split('\n# Body\n')
  const parts = rest.join('\n# Body\n').split('\n\n')
  for (const { how, at, to } of edits) {
    const index = at % parts.length
    const taken = how === 'double' ? [parts[index] ?? ''] : parts.splice(index, 1)
    if (how !== 'drop') parts.splice(to % (parts.length + 1), 0, ...taken)
  }
  const declared = [
    head,
    head.replace('400 V', '690 V'),
    head.replace('6 bar', '4 bar'),
    head.replace('electrical: true', 'electrical: false'),
    head.replace('normal: off', 'normal: on'),
    head.replace('rated="1000 V"', 'rated="600 V"'),
    head.replace('at: [P1, P2]', 'at: [P1]'),
    head.replace(/^ {2}r1: .*\n/m, ''),
    head.replace('order: general', 'order: electrical'),
    head.replace('rebuilds: true', 'rebuilds: false')
  ]
  return `${declared[digit]}\n# Body\n${parts.join('\n\n')}`
}

function machineOrNull(text: string): Machine | null {
  const parsed = parseProcedure({ file: 'edited.md', text })
  if (!parsed.ok) return null
  const compiled = compile(parsed.value)
  return compiled.ok ? compiled.value : null
}
