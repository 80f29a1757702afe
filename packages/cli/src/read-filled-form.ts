import { CannotRun, readInput, whyNot } from './read-input.js'

/** What was put into the fields of a form, by the names of the fields: a text, the circle that is marked, or a tick. */
export type FilledForm = ReadonlyMap<string, string | true>

/** What a PDF says of the sheet that it is; null, or empty: the program that filled it in, or an older print, does not say it. */
export interface PrintedForm {
  /** Digest of the machine that was printed. */
  readonly digest: string | null
  readonly serial: string | null
  /** Axis to the value for which alone it was printed. */
  readonly generations: Readonly<Record<string, string>>
  /** Offset of the clock by which it asks for times, `+01:00`. */
  readonly zone: string | null
}

export interface ReadForm extends PrintedForm {
  readonly filled: FilledForm
  /** Names of all fields that it has, filled in or not. */
  readonly names: ReadonlySet<string>
}

/** The fields of a PDF that somebody filled in. The PDF library is loaded here alone. */
export async function readFilledForm(file: string): Promise<ReadForm> {
  const bytes = readInput(file)
  const { PDFCheckBox, PDFDocument, PDFRadioGroup, PDFTextField } = await import('@cantoo/pdf-lib')
  try {
    const document = await PDFDocument.load(bytes, { updateMetadata: false })
    const fields = document.getForm().getFields()
    const filled = fields.flatMap((field): readonly (readonly [string, string | true])[] => {
      if (field instanceof PDFCheckBox) return field.isChecked() ? [[field.getName(), true]] : []
      const value =
        field instanceof PDFTextField ? field.getText() : field instanceof PDFRadioGroup ? field.getSelected() : ''
      const text = value?.trim() ?? ''
      return text === '' ? [] : [[field.getName(), text]]
    })
    return {
      filled: new Map(filled),
      names: new Set(fields.map((field) => field.getName())),
      ...printedForm(document.getSubject() ?? '')
    }
  } catch (error) {
    throw new CannotRun(`${file} cannot be read as a filled sheet: ${whyNot(error)}`)
  }
}

/** The subject of the PDF: revision, digest, and behind them what sheet it is. */
function printedForm(subject: string): PrintedForm {
  return {
    digest: /\b[0-9a-f]{64}\b/.exec(subject)?.[0] ?? null,
    serial: /, sheet:([0-9A-Z]{3}-[0-9A-Z]{4})\b/.exec(subject)?.[1] ?? null,
    generations: Object.fromEntries(
      [...subject.matchAll(/, for:([^\s=,]+)=([^\s,]+)/g)].map(([, axis = '', value = '']) => [axis, value])
    ),
    zone: /, times:UTC([+-]\d\d:\d\d)/.exec(subject)?.[1] ?? null
  }
}

/** Whether a file of answers is a filled PDF, by its name. */
export function isFilledForm(file: string): boolean {
  return file.toLowerCase().endsWith('.pdf')
}
