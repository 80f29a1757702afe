import { energySheet } from '@lockwright/energy'
import { writtenWaits } from '@lockwright/machine'
import { describe, expect, it } from 'vitest'
import { energySheetBlocks } from '../blocks/energy-sheet-blocks.js'
import { layOut } from '../blocks/lay-out.js'
import { type Catalog, catalogFor, type SheetLanguage, sheetLanguages } from '../catalog.js'
import type { PrintOptions } from '../print-options.js'
import { buildSheet } from '../sheet/build-sheet.js'
import { blocksInLanguage } from './blocks-in-language.js'
import { proved, written } from './compiled.fixture.js'
import { sheetInLanguage } from './entry-in-language.js'
import { machineInLanguage } from './machine-in-language.js'

const names: Readonly<Record<SheetLanguage, string>> = { en: 'english', es: 'spanish', de: 'german', fr: 'french' }
const others = sheetLanguages.filter((language) => language !== 'en')
const spanish = written('translations/booster-pump-precharge.es.md')
/** Two remedies, a clock, a reading without a branch and steps without labels: what the translation lacks. */
const extra = written('baling-press-platen.md')

const options: PrintOptions = {
  paper: 'a4',
  issue: { kind: 'issued', by: 'Ann Berg', at: '2026-03-04T05:06:00Z' },
  digest: 'ab12'.repeat(16),
  now: '2026-03-05T05:06:00Z'
}

function checklist(text: string, language: SheetLanguage) {
  const { machine, report } = proved(text)
  const catalog = catalogFor(language, machine.language)
  return layOut(buildSheet(machineInLanguage(machine, catalog)), { ...options, report }, catalog)
}

function calculation(text: string, language: SheetLanguage) {
  const { machine } = proved(text)
  const catalog = catalogFor(language, machine.language)
  const sheet = energySheet(machine.sources, { writtenWaits: writtenWaits(machine) })
  return blocksInLanguage(energySheetBlocks(machine, sheetInLanguage(sheet, catalog), options, catalog), catalog)
}

/** Every text that a reader meets; names of fields, of steps and of kinds are none. */
function texts(value: unknown, key = ''): readonly string[] {
  if (typeof value === 'string')
    return ['kind', 'name', 'code', 'size', 'shape', 'word', 'mark', 'use', 'anchor', 'key', 'id', 'on'].includes(key)
      ? []
      : [value]
  if (Array.isArray(value)) return value.flatMap((each) => texts(each, key))
  if (value === null || typeof value !== 'object') return []
  return Object.entries(value).flatMap(([name, each]) =>
    name === 'field' || name === 'fields' || name === 'initials' || name === 'time' ? [] : texts(each, name)
  )
}

const wordsOf = (text: string): readonly string[] => text.toLowerCase().match(/\p{L}{2,}/gu) ?? []

/** Words that only English wording has: said by the English sheet, in no other catalog's and in no author's text. */
function englishOnly(language: SheetLanguage, said: readonly string[], author: string): ReadonlySet<string> {
  const known = new Set([...wordsOf(author), ...catalogTold(language)])
  return new Set(said.flatMap(wordsOf).filter((word) => !known.has(word)))
}

/** The words of a catalog, of what its functions give too, without the English that its phrases are found by. */
function catalogTold(language: SheetLanguage): readonly string[] {
  const catalog = catalogFor(language, 'en')
  const { phrases, ...energy } = catalog.energy
  return [...told({ ...catalog, energy }), ...phrases.map(([, phrase]) => phrase)].flatMap(wordsOf)
}

function told(value: unknown): readonly string[] {
  if (typeof value === 'string') return [value]
  if (typeof value === 'function') return samples.flatMap((sample) => told(tried(value as Told, sample)))
  if (value === null || typeof value !== 'object') return []
  return Object.values(value).flatMap(told)
}

type Told = (...given: readonly unknown[]) => unknown
const samples: readonly (readonly unknown[])[] = [
  ['a', 'a', 'a', 'a', 'a'],
  [1, 1, 1],
  [2, 2],
  [['a']],
  [['a', 'b', 'c'], 'dark'],
  [['a'], 'lit'],
  [1, { one: 'a', other: 'b' }],
  ['2026-03-04T05:06:00Z']
]

/** Null where it does not take this. */
function tried(call: Told, given: readonly unknown[]): unknown {
  try {
    return call(...given)
  } catch {
    return null
  }
}

/** Not English but names: of the program and its commands, of standards, of obligations, of units and of codes. */
const alike = new Set(
  'lockwright enter check sha cfr qr utc ann berg ab iec iso dod kg lb lbf ft psi rad rpm ln'.split(' ')
)

describe('the fixed wording', () => {
  for (const language of others) {
    it(`leaves no English on the checklist in ${names[language]}`, () => {
      const { report } = proved(spanish)
      const ids = report.obligations.map(({ id }) => id).join(' ')
      const only = englishOnly(language, texts(checklist(spanish, 'en')), `${spanish} ${ids}`)
      // The test can fail: the English sheet itself has hundreds of such words.
      expect(only.size).toBeGreaterThan(200)
      const left = texts(checklist(spanish, language)).filter((text) =>
        wordsOf(text).some((word) => only.has(word) && !alike.has(word))
      )
      expect(left).toEqual([])
    })

    it(`words everything that the compiler made in ${names[language]}`, () => {
      const { machine } = proved(extra)
      const told = machineInLanguage(machine, catalogFor(language, 'en'))
      const kinds = [
        'gather',
        'identify',
        'lock',
        'relieve',
        'restrain',
        'prove',
        'unlock',
        'energize',
        'finish',
        'remove'
      ]
      machine.states.forEach((state, index) => {
        const other = told.states[index]
        if (kinds.includes(state.kind)) expect([state.title, other?.title !== state.title]).toEqual([state.title, true])
        if (state.kind === 'ask' && state.id.endsWith('.cured'))
          expect(other?.exits.flatMap((exit) => (exit.on === 'answer' ? [exit.label] : []))).not.toContain('Yes')
      })
      expect(JSON.stringify(told)).not.toContain('Remedy 1 of 2')
    })

    it(`says the calculation sheet in ${names[language]}, but for formulas, their sources and notes`, () => {
      const only = englishOnly(language, texts(calculation(spanish, 'en')), spanish)
      const { energy } = catalogFor(language, 'en')
      const [source = '', note = ''] = [energy.source(''), energy.note('')]
      const cited = (text: string): boolean => text.startsWith(source) || text.startsWith(note)
      const left = texts(calculation(spanish, language)).filter(
        (text) => !cited(text) && wordsOf(text).some((word) => only.has(word) && !allowed.has(word) && !alike.has(word))
      )
      expect(left).toEqual([])
      expect(texts(calculation(spanish, 'en')).join(' ')).toContain(', from 10 J')
      expect(texts(calculation(spanish, language)).join(' ')).not.toContain(', from ')
    })
  }

  it('calls the signal words as ISO 3864-2 and ANSI Z535.6 have them, from memory', () => {
    const words = (language: SheetLanguage): readonly string[] => Object.values(catalogFor(language, 'en').signalWords)
    expect(words('en')).toEqual(['DANGER', 'WARNING', 'CAUTION', 'NOTICE'])
    expect(words('de')).toEqual(['GEFAHR', 'WARNUNG', 'VORSICHT', 'HINWEIS'])
    expect(words('fr')).toEqual(['DANGER', 'AVERTISSEMENT', 'ATTENTION', 'AVIS'])
    expect(words('es')).toEqual(['PELIGRO', 'ADVERTENCIA', 'PRECAUCIÓN', 'AVISO'])
  })

  it('keeps to four different languages', () => {
    const sheets = sheetLanguages.map((language) => catalogFor(language, 'en'))
    for (const key of ['sheet', 'draft', 'notIssued'] satisfies (keyof Catalog)[])
      expect(new Set(sheets.map((catalog) => catalog[key])).size).toBe(sheets.length)
  })
})

/** Keys of the language, which name a parameter in every language. */
const allowed = new Set(
  'voltage capacitance bleed label wait safe below inertia speed coast down pressure fault current volume bulk modulus bore discharge coefficient column height'.split(
    ' '
  )
)
