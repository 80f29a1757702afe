import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { digestOf } from '@lockwright/machine'
import { folderImages, printLabels, printPlacard, printTags, sampleProcedure } from '@lockwright/runner-paper'
import { PNG } from 'pngjs'
import { beforeAll, describe, expect, it } from 'vitest'
import { isHere, provedFile, root, sheetOf, told, withFile } from './paper-tools.js'

type Value = null | boolean | number | string | readonly Value[] | { readonly [name: string]: Value }
type Dictionary = Readonly<Record<string, Value>>

/** A file as qpdf reads it: every object by its reference, and what each page draws. */
class Read {
  readonly objects = new Map<string, { readonly value: Value; readonly data: string }>()
  readonly trailer: Dictionary

  constructor(pdf: Uint8Array) {
    const json = withFile(pdf, (path) =>
      told('qpdf', '--json', '--json-key=qpdf', '--json-stream-data=inline', '--decode-level=generalized', path)
    )
    const [, objects] = (JSON.parse(json) as { readonly qpdf: readonly [unknown, Record<string, Json>] }).qpdf
    for (const [name, { value, stream }] of Object.entries(objects)) {
      const data = Buffer.from(stream?.data ?? '', 'base64').toString('latin1')
      this.objects.set(name.replace(/^obj:/, ''), { value: value ?? stream?.dict ?? null, data })
    }
    this.trailer = this.dictionary('trailer')
  }

  /** What a reference leads to; anything else as it is. */
  at(value: Value | undefined): Value {
    return typeof value === 'string' && this.objects.has(value)
      ? (this.objects.get(value)?.value ?? null)
      : (value ?? null)
  }

  dictionary(value: Value | undefined): Dictionary {
    const found = this.at(value)
    return found !== null && typeof found === 'object' && !Array.isArray(found) ? (found as Dictionary) : {}
  }

  list(value: Value | undefined): readonly Value[] {
    const found = this.at(value)
    return Array.isArray(found) ? found : found === null ? [] : [value as Value]
  }

  /** References of the dictionaries that have an entry with this value. */
  having(key: string, wanted: string): readonly string[] {
    return [...this.objects.keys()].filter((name) => this.dictionary(name)[key] === wanted)
  }

  drawnOn(page: string): string {
    return this.list(this.dictionary(page)['/Contents'])
      .map((each) => this.objects.get(each as string)?.data ?? '')
      .join('\n')
  }
}

interface Json {
  readonly value?: Value
  readonly stream?: { readonly data?: string; readonly dict?: Value }
}

/** Operators that leave a mark on the page (ISO 32000-1, tables 60, 77, 87, 107 and 109). */
const marking = new Set(['S', 's', 'f', 'F', 'f*', 'B', 'B*', 'b', 'b*', 'sh', 'Do', 'Tj', 'TJ', "'", '"', 'BI'])

/** What is drawn outside of any marked content, and how often marked content was opened and not closed. */
function untagged(content: string): { readonly marks: readonly string[]; readonly open: number } {
  const words = content
    .replace(/\((?:\\.|[^\\()])*\)/gs, '()')
    .replace(/<[0-9a-fA-F\s]*>/g, '()')
    .split(/[\s[\]()]+/)
  let depth = 0
  const marks: string[] = []
  for (const word of words) {
    if (word === 'BDC' || word === 'BMC') depth += 1
    else if (word === 'EMC') depth -= 1
    else if (marking.has(word) && depth === 0) marks.push(word)
  }
  return { marks, open: depth }
}

const machine = provedFile('procedures/booster-pump-precharge.md')
const hung = { issue: { kind: 'draft' }, digest: digestOf(machine), now: '2027-03-02T07:00:00Z', paper: 'a4' } as const

async function pdfOf(made: ReturnType<typeof printPlacard>): Promise<Uint8Array> {
  const printed = await made
  if (!printed.ok) throw new Error(printed.faults.join('; '))
  return printed.pdf
}

/** A drawing and an image, with numbers on it and without. */
async function pictured(): Promise<Uint8Array> {
  const folder = mkdtempSync(join(tmpdir(), 'lockwright-pictured-'))
  try {
    const drawing = '<path d="M 40 60 L 120 30 L 120 90 Z"/><text x="220" y="65" font-size="16">suction</text>'
    const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="300" height="120">${drawing}</svg>`
    writeFileSync(join(folder, 'valve.svg'), svg)
    writeFileSync(join(folder, 'door.png'), PNG.sync.write(new PNG({ width: 60, height: 40 })))
    const named = '![Door; 1 at 30 40: handle of Q1](door.png)\n\n![Valve V1](valve.svg)\n'
    const text = readFileSync(join(root, 'procedures/booster-pump-precharge.md'), 'utf8')
    const images = folderImages(folder)
    const pdf = await sheetOf(provedFile('pictured.md', text.replace('# Lock out\n', `# Lock out\n\n${named}`)), {
      images: images.load
    })
    expect(images.faults()).toEqual([])
    return pdf
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

const papers: readonly (readonly [string, () => Promise<Uint8Array>])[] = [
  ['the sheet', () => sheetOf(machine, { serial: 'S-000017' })],
  [
    'a sheet of another procedure in Spanish',
    () => sheetOf(provedFile('sample.md', sampleProcedure), { language: 'es' })
  ],
  ['a sheet with pictures', pictured],
  ['the placard', () => pdfOf(printPlacard(machine, hung))],
  ['the tags', () => pdfOf(printTags(machine, hung))],
  ['the labels', () => pdfOf(printLabels(machine, hung))]
]

/** Clauses of ISO 14289-1:2014 (PDF/UA-1), from memory. */
describe.runIf(isHere('qpdf')).each(papers)('%s, for whoever has it read out', (_, print) => {
  let read: Read
  let catalog: Dictionary

  beforeAll(async () => {
    read = new Read(await print())
    catalog = read.dictionary(read.trailer['/Root'])
  })

  it('says that it is tagged, its language and its title (7.1, 7.2)', () => {
    expect(read.dictionary(catalog['/MarkInfo'])['/Marked']).toBe(true)
    expect(read.at(catalog['/Lang'])).toMatch(/^u:(en|es)$/)
    expect(read.dictionary(catalog['/ViewerPreferences'])['/DisplayDocTitle']).toBe(true)
    expect(read.at(read.dictionary(read.trailer['/Info'])['/Title'])).toMatch(/^u:./)
    const metadata = read.objects.get(catalog['/Metadata'] as string)?.data ?? ''
    expect(metadata).toMatch(/<pdfuaid:part>1<\/pdfuaid:part>/)
    expect(metadata).toMatch(/<dc:title>/)
  })

  it('draws nothing on any page that is neither read out nor decoration (7.1), and closes what it opens', () => {
    const pages = read.having('/Type', '/Page')
    expect(pages.length).toBeGreaterThan(0)
    for (const page of pages) {
      const content = read.drawnOn(page)
      expect(content.length, page).toBeGreaterThan(100)
      expect(untagged(content), page).toEqual({ marks: [], open: 0 })
    }
  })

  it('has every field and link in its structure, with words for it (7.18), in the order of the structure', () => {
    const shown = new Map<string, string>()
    for (const [element, { value }] of read.objects) {
      if (value === null || typeof value !== 'object' || Array.isArray(value)) continue
      const { '/S': type, '/K': kids } = value as Dictionary
      if (type !== '/Form' && type !== '/Link') continue
      for (const kid of read.list(kids)) {
        const { '/Type': of, '/Obj': object } = read.dictionary(kid)
        if (of === '/OBJR') shown.set(object as string, `${type} ${element}`)
      }
    }
    for (const widget of read.having('/Subtype', '/Widget')) {
      expect(shown.get(widget), widget).toMatch(/^\/Form /)
      expect(read.at(read.dictionary(widget)['/TU']), widget).toMatch(/^u:../)
      expect(read.dictionary(widget)['/StructParent'], widget).toEqual(expect.any(Number))
    }
    for (const link of read.having('/Subtype', '/Link')) {
      expect(shown.get(link), link).toMatch(/^\/Link /)
      expect(read.at(read.dictionary(link)['/Contents']), link).toMatch(/^u:../)
    }
    for (const page of read.having('/Type', '/Page'))
      if (read.list(read.dictionary(page)['/Annots']).length > 0) expect(read.dictionary(page)['/Tabs']).toBe('/S')
  })

  it('tells each figure in words (7.3) and says of each head which cells are its own (7.5)', () => {
    for (const figure of read.having('/S', '/Figure'))
      expect(read.at(read.dictionary(figure)['/Alt']), figure).toMatch(/^u:../)
    for (const head of read.having('/S', '/TH'))
      expect(read.dictionary(read.dictionary(head)['/A'])['/Scope'], head).toMatch(/^\/(Row|Column|Both)$/)
  })

  it('names no font that is not embedded, not even for fields (7.21.4.1)', () => {
    const fonts = read.having('/Type', '/Font')
    expect(fonts.length).toBeGreaterThan(0)
    for (const font of fonts) {
      const dictionary = read.dictionary(font)
      if (dictionary['/Subtype'] === '/Type0') continue
      const descriptor = read.dictionary(dictionary['/FontDescriptor'])
      expect(descriptor['/FontFile2'] ?? descriptor['/FontFile3'], String(dictionary['/BaseFont'])).toBeTruthy()
    }
  })
})

it('would see what is drawn outside of all structure', () => {
  expect(untagged('/P <</MCID 0>> BDC BT (a S b) Tj ET EMC 0 0 m 9 9 l S')).toEqual({ marks: ['S'], open: 0 })
  expect(untagged('/Artifact BMC 0 0 9 9 re f')).toEqual({ marks: [], open: 1 })
})
