import { skeletonOf } from '@lockwright/machine'
import { describe, expect, it } from 'vitest'
import type { Block } from '../blocks/block.js'
import { layOut } from '../blocks/lay-out.js'
import { catalogFor } from '../catalog.js'
import type { PrintOptions } from '../print-options.js'
import { printProcedure } from '../print-procedure.js'
import { buildSheet } from '../sheet/build-sheet.js'
import { firstDifference } from './compare-skeletons.js'
import { proved, written } from './compiled.fixture.js'
import { machineInLanguage } from './machine-in-language.js'
import { printSideBySide } from './print-side-by-side.js'
import { pairedBlocks } from './text-only.js'

const english = written('booster-pump-precharge.md')
const spanish = written('translations/booster-pump-precharge.es.md')
const { machine } = proved(english)
const { machine: translation } = proved(spanish)
const options: PrintOptions = { paper: 'a4', issue: { kind: 'draft' }, digest: 'ab12'.repeat(16) }

function blocksOf(of: typeof machine): readonly Block[] {
  const catalog = catalogFor(undefined, of.language)
  return layOut(buildSheet(machineInLanguage(of, catalog)), options, catalog)
}

describe('the Spanish translation of the demo procedure', () => {
  it('is proved and is the same machine but for its words', () => {
    expect(skeletonOf(translation)).toBe(skeletonOf(machine))
    expect(firstDifference(machine, translation)).toBeNull()
    expect(translation.language).toBe('es')
  })

  it('translates every title, label and text of the author', () => {
    const same = machine.states.filter((state, at) => {
      const other = translation.states[at]
      return state.body.length > 0 && JSON.stringify(state.body) === JSON.stringify(other?.body)
    })
    expect(same.map(({ title }) => title)).toEqual([])
    for (const [at, section] of machine.sections.entries())
      expect(translation.sections[at]?.title).not.toBe(section.title)
  })
})

describe('two languages side by side', () => {
  const pairs = pairedBlocks(blocksOf(machine), blocksOf(translation))

  it('stand step by step beside each other', () => {
    const steps = pairs.filter(({ filled }) => filled.kind === 'step')
    expect(steps.length).toBe(machine.states.length)
    for (const { filled, read } of steps) {
      if (filled.kind !== 'step' || read.kind !== 'step') throw new Error('a step stands beside no step')
      expect([read.card.number, read.card.kind, read.card.shape]).toEqual([
        filled.card.number,
        filled.card.kind,
        filled.card.shape
      ])
    }
  })

  it('tell every step of the map in both', () => {
    const read = pairs.flatMap((pair) => (pair.filled.kind === 'flow' ? [pair.read] : []))
    const told = JSON.stringify(read)
    expect(read).toHaveLength(1)
    const titles = blocksOf(translation).flatMap((block) =>
      block.kind === 'flow' ? block.rows.flatMap((row) => (row.kind === 'node' ? [row.title] : [])) : []
    )
    expect(titles).toHaveLength(machine.states.length)
    for (const title of titles) expect(told).toContain(JSON.stringify(title).slice(1, -1))
  })

  it('have one set of boxes and blanks', () => {
    const asks = (block: Block): boolean =>
      block.kind === 'ticks' ||
      (block.kind === 'table' && block.writing) ||
      (block.kind === 'step' &&
        (block.card.signed ||
          block.card.times > 0 ||
          block.card.rows.some((row) => row.kind === 'entry' || row.kind === 'readings' || row.kind === 'way')))
    expect(pairs.filter(({ filled }) => asks(filled)).length).toBeGreaterThan(30)
    expect(pairs.filter(({ read }) => asks(read))).toEqual([])
    expect(JSON.stringify(pairs.map(({ read }) => read))).not.toContain('"field"')
  })

  it('drop no word of the translation: no gate, notice or limit', () => {
    const told = JSON.stringify(pairs.map(({ read }) => read))
    for (const { card } of pairs.flatMap(({ filled }) => (filled.kind === 'step' ? [filled] : [])))
      expect(told).toContain(`"number":${card.number},`)
    for (const state of translation.states)
      for (const { label } of state.notices) expect(told).toContain(JSON.stringify(label))
    expect(told).toContain('menos de 50')
    expect(told).toContain('de 880 a 980')
  })

  it('give one file, with the fields of the sheet in one language, in both languages', async () => {
    const both = await printSideBySide(machine, translation, options)
    if (!both.ok) throw new Error(both.difference.what)
    const [one, two] = [Buffer.from(await printProcedure(machine, options)), Buffer.from(both.pdf)].map((pdf) =>
      pdf.toString('latin1')
    )
    const fields = (pdf: string | undefined) => (pdf ?? '').split('/FT /').length
    const names = (pdf: string | undefined) =>
      [...(pdf ?? '').matchAll(/\/T \(([^)]*)\)/g)]
        .map(([, name = '']) => name)
        .filter((name) => !name.includes(' '))
        .toSorted()
    // Titles of the structure tree, which hold blanks, are no fields.
    expect(names(one).length).toBeGreaterThan(100)
    expect(names(two)).toEqual(expect.arrayContaining(names(one)))
    expect(fields(two)).toBe(fields(one))
    expect(two).toContain('/Lang (en)')
    expect(two).toContain('/Lang (es)')
  })
})

describe('a translation that does something else', () => {
  const against = (change: (text: string) => string) => firstDifference(machine, proved(change(spanish)).machine)
  const line = (text: string, part: string): number => text.slice(0, text.indexOf(part)).split('\n').length

  it('is refused at the first step that differs, in both files', async () => {
    const changed = spanish.replace('::energize{at="V1 Q2 Q1"}', '::energize{at="Q1 Q2 V1"}')
    const printed = await printSideBySide(machine, proved(changed).machine, options)
    expect(printed).toMatchObject({
      ok: false,
      difference: {
        line: line(english, '::energize{at="V1 Q2 Q1"}'),
        otherLine: line(changed, '::energize{at="Q1 Q2 V1"}'),
        what: expect.stringContaining('`Switch on V1, Q2 and Q1`')
      }
    })
  })

  it.each([
    ['a limit', (text: string) => text.replace('max=980', 'max=990')],
    ['a role', (text: string) => text.replace('{restraint=earths role=qualified}', '{restraint=earths}')],
    ['a box', (text: string) => text.replace('- Herramientas y cubiertas contadas\n', '')],
    ['a notice', (text: string) => text.replace(':::caution[Pieza pesada]', ':::warning[Pieza pesada]')],
    ['a wait', (text: string) => text.replace('::relieve{of=dc-link}', '::relieve{of=dc-link wait="20 min"}')],
    [
      'a way',
      (text: string) =>
        text.replace(
          ':::answer[Cualquier otra cosa]\n::stop',
          ':::answer[Cualquier otra cosa]\n::shutdown[Pulsar]\n::stop'
        )
    ]
  ])('is found where %s differs', (_, change) => {
    expect(change(spanish)).not.toBe(spanish)
    const found = against(change)
    expect(found?.line).toBeGreaterThan(1)
    expect(found?.what).toContain('the other')
  })

  it.each([
    ['a level', (text: string) => text.replace('safe-below: 50 V', 'safe-below: 40 V'), 'sources'],
    ['a revision', (text: string) => text.replace('revision: 3', 'revision: 4'), 'revision'],
    ['the class of a glove', (text: string) => text.replace('{#gloves class=0}', '{#gloves class=1}'), 'items']
  ])('is found where %s of the front matter or the requirements differs', (_, change, key) => {
    expect(against(change)?.what).toContain(`\`${key}\``)
  })
})
