import PDFDocument from 'pdfkit'
import { describe, expect, it } from 'vitest'
import { quickReferences } from './quick-references.js'

interface Referring {
  ref(data: object): { readonly data: object; end(content?: string): void }
}

/** A document with a structure, a field and these dictionaries, as bytes; in the library's own way or in the quick one. */
function written(quick: boolean, dictionaries: readonly object[]): Promise<string> {
  const made = new Date(0)
  const document = new PDFDocument({ tagged: true, lang: 'en', info: { CreationDate: made, ModDate: made } })
  if (quick) quickReferences(document)
  const chunks: Buffer[] = []
  document.on('data', (chunk: Buffer) => chunks.push(chunk))
  const bytes = new Promise<string>((resolve) => {
    document.on('end', () => resolve(Buffer.concat(chunks).toString('latin1')))
  })
  const root = document.struct('Document')
  document.addStructure(root)
  root.add(document.struct('P', { alt: 'Lever (left) \\ Ω', lang: 'de' }, () => document.text('Text', 10, 10)))
  document.annotate(10, 10, 50, 20.25, { Subtype: 'Widget', T: new String('a.b') } as never)
  const open = document as unknown as Referring
  for (const data of dictionaries) open.ref(data).end()
  open.ref({ Type: 'XObject' }).end('q Q')
  root.end()
  document.end()
  return bytes
}

const kinds: readonly (readonly [string, unknown])[] = [
  ['names', 'Name'],
  ['plain texts', new String('Lever across the pipe, 50 V; #1')],
  ['an empty text', new String('')],
  ['texts with signs to escape', new String('(a) \\ b')],
  ['texts with a line in them', new String('one\ntwo\ttab')],
  ['texts of other letters', new String('Ω Ключ')],
  ['numbers', [0, -0, 1, -2.5, 0.1 + 0.2, 1e-9, 123456.123456789, 1e20]],
  ['truth and nothing', [true, false, null]],
  ['lists in lists', [[], ['A', 1], [new String('x'), ['B']]]],
  ['dictionaries in dictionaries', { One: { Two: [{ Three: 3 }] }, Absent: undefined }],
  ['dates', new Date(1_700_000_000_000)],
  ['bytes', Uint8Array.of(1, 2, 255)],
  ['a missing thing in a list', ['A', undefined]]
]

describe('a document whose dictionaries are written quickly', () => {
  it.each(kinds)('has %s as the library writes them', async (_, value) => {
    const dictionaries = () => [{ Value: value }]
    expect(await written(true, dictionaries())).toBe(await written(false, dictionaries()))
  })
})
