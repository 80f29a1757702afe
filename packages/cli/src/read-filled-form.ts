import { CannotRun, readInput, whyNot } from './read-input.js'

/** What was put into the fields of a form, by the names of the fields: a text, the circle that is marked, or a tick. */
export type FilledForm = ReadonlyMap<string, string | true>

/** The fields of a PDF that somebody filled in. The PDF library is loaded here alone. */
export async function readFilledForm(file: string): Promise<{
  readonly filled: FilledForm
  /** Digest of the machine that was printed; null: the program that filled it in did not keep it. */
  readonly digest: string | null
}> {
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
    return { filled: new Map(filled), digest: /\b[0-9a-f]{64}\b/.exec(document.getSubject() ?? '')?.[0] ?? null }
  } catch (error) {
    throw new CannotRun(`${file} cannot be read as a filled sheet: ${whyNot(error)}`)
  }
}

/** Whether a file of answers is a filled PDF, by its name. */
export function isFilledForm(file: string): boolean {
  return file.toLowerCase().endsWith('.pdf')
}
