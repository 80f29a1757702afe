import { execFileSync } from 'node:child_process'
import { readFileSync, writeFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { join } from 'node:path'
import { formFieldsOf, type SheetField } from '@lockwright/runner-paper'
import { describe, expect, it } from 'vitest'
import { isHere, pictures, provedFile, root, sheetOf, told, withFile } from './paper-tools.js'

/** What is used of @cantoo/pdf-lib, which the command reads filled sheets with; it is a dependency of the command alone. */
interface Library {
  readonly PDFDocument: {
    load(bytes: Uint8Array): Promise<{ getForm(): { getFields(): readonly FilledField[] } }>
  }
}
interface FilledField {
  getName(): string
  getText?(): string | undefined
  isChecked?(): boolean
  getSelected?(): string | undefined
  getOptions?(): readonly string[]
}
const { PDFDocument } = createRequire(join(root, 'packages/cli/package.json'))('@cantoo/pdf-lib') as Library

const filler = join(root, 'tests/paper/fill-form.py')
/** Debian's own Python has pypdf; another that stands before it on the path need not. */
const python = '/usr/bin/python3'
const machine = provedFile('procedures/booster-pump-precharge.md')
const fields = formFieldsOf(machine)

/** A different text for each field, so that none can be taken for another. */
function filling({ kind, values }: SheetField, index: number): string {
  if (kind === 'tick') return 'Yes'
  return kind === 'choice' ? (values[index % values.length] ?? '') : `${index} Ä`
}

function read(field: FilledField): string | undefined {
  if (field.isChecked !== undefined) return field.isChecked() ? 'Yes' : undefined
  return field.getSelected === undefined ? field.getText?.() : field.getSelected()
}

describe('the fields of a sheet', () => {
  it('are in the PDF by the names that formFieldsOf tells, each once, with the answers of a choice', async () => {
    const document = await PDFDocument.load(await sheetOf(machine))
    const found = document.getForm().getFields()
    expect(found.map((field) => field.getName()).sort()).toEqual(fields.map(({ name }) => name).sort())
    for (const field of found) {
      const known = fields.find(({ name }) => name === field.getName())
      if (known?.kind === 'choice') expect(field.getOptions?.()).toEqual(known.values)
    }
  })

  it('are there for every input that the machine asks for', () => {
    for (const { id, inputs } of machine.states)
      for (const input of inputs)
        expect(
          fields.some((field) => field.state === id && field.input === input.id),
          `${id} ${input.id}`
        ).toBe(true)
  })

  it('keep their names whatever is printed besides, and fall away with the steps of another generation', async () => {
    const document = await PDFDocument.load(
      await sheetOf(machine, {
        paper: 'letter',
        serial: 'S-1',
        language: 'fr',
        issue: { kind: 'issued', by: 'A. Vega', at: '2027-03-01T10:00:00Z' }
      })
    )
    expect(
      document
        .getForm()
        .getFields()
        .map((field) => field.getName())
        .sort()
    ).toEqual(fields.map(({ name }) => name).sort())
    const one = formFieldsOf(machine, { cabinet: 'series-s' } as Parameters<typeof formFieldsOf>[1])
    expect(one.length).toBeLessThan(fields.length)
    for (const { name } of one)
      expect(
        fields.some((field) => field.name === name),
        name
      ).toBe(true)
  })

  it('are all told to those who do not see them', async () => {
    const pdf = Buffer.from(await sheetOf(machine)).toString('latin1')
    const widgets = pdf.match(/\/Subtype \/Widget[\s\S]*?endobj/g) ?? []
    expect(widgets.length).toBeGreaterThanOrEqual(fields.length)
    for (const widget of widgets) {
      expect(widget).toContain('/TU ')
      expect(widget).toContain('/StructParent ')
    }
    expect(new Set(fields.map(({ tip }) => tip)).size).toBeGreaterThan(fields.length * 0.9)
  })
})

describe.runIf(isHere('pdftoppm') && isHere(python))('a form filled by pypdf', () => {
  const values = Object.fromEntries(fields.map((field, index) => [field.name, filling(field, index)]))

  function filled(pdf: Uint8Array, wanted: Readonly<Record<string, string>>): Uint8Array {
    return withFile(pdf, (file, folder) => {
      writeFileSync(join(folder, 'values.json'), JSON.stringify(wanted))
      execFileSync(python, [filler, file, join(folder, 'values.json'), join(folder, 'filled.pdf')])
      told('qpdf', '--check', join(folder, 'filled.pdf'))
      return readFileSync(join(folder, 'filled.pdf'))
    })
  }

  it('is read back by another library, every field as it was filled', async () => {
    const document = await PDFDocument.load(filled(await sheetOf(machine), values))
    const back = document
      .getForm()
      .getFields()
      .map((field) => [field.getName(), read(field)])
    expect(Object.fromEntries(back)).toEqual(values)
  })

  it('shows what was ticked, chosen and written when it is printed', async () => {
    const pdf = await sheetOf(machine)
    const ink = (page: { readonly data: Uint8Array }): number => {
      let sum = 0
      for (let at = 0; at < page.data.length; at += 4) sum += 255 - (page.data[at] ?? 255)
      return sum
    }
    const before = pictures(pdf, 40).map(ink)
    const after = pictures(filled(pdf, values), 40).map(ink)
    const changed = before.filter((sum, index) => (after[index] ?? 0) > sum * 1.002).length
    // The map and the page of what was checked have nothing to fill in.
    expect(changed).toBeGreaterThanOrEqual(before.length - 4)
  })
})
