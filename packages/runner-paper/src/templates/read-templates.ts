import { nearest } from '@lockwright/language'
import { checkTemplate } from './check-template.js'
import type { TemplateFault } from './template-fault.js'

/** What a site can have a template for. */
export const templateNames = ['letterhead', 'header', 'footer', 'fields', 'wording', 'paper'] as const

export type TemplateName = (typeof templateNames)[number]

/** A template that was checked: it names only values that there are. */
export interface SheetTemplate {
  readonly file: string
  readonly source: string
}

export type SheetTemplates = Readonly<Partial<Record<TemplateName, SheetTemplate>>>

export type ReadTemplates =
  | { readonly ok: true; readonly templates: SheetTemplates }
  | { readonly ok: false; readonly faults: readonly TemplateFault[] }

/** Longer than any letterhead; keeps hostile input cheap. */
const largest = 8192

/** Templates by the name of their file (`letterhead.hbs`), read and checked, every fault at once. */
export async function readTemplates(files: ReadonlyMap<string, Uint8Array>): Promise<ReadTemplates> {
  const { default: handlebars } = await import('handlebars')
  const faults: TemplateFault[] = []
  const found: Partial<Record<TemplateName, SheetTemplate>> = {}
  for (const [file, bytes] of [...files].toSorted(([one], [other]) => (one < other ? -1 : 1))) {
    const base = file.split('/').at(-1) ?? file
    const name = templateNames.find((each) => `${each}.hbs` === base)
    if (name === undefined) {
      faults.push(unknownFile(file, base))
      continue
    }
    const source = textOf(bytes)
    if (source === null) {
      faults.push(unreadable(file))
      continue
    }
    try {
      const own = checkTemplate(file, handlebars.parse(source))
      faults.push(...own)
      if (own.length === 0) found[name] = { file, source }
    } catch (error) {
      faults.push(notParsed(file, error))
    }
  }
  return faults.length > 0 ? { ok: false, faults } : { ok: true, templates: found }
}

function textOf(bytes: Uint8Array): string | null {
  if (bytes.byteLength > largest) return null
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes)
  } catch {
    return null
  }
}

const start = { line: 1, column: 1 } as const

function unknownFile(file: string, base: string): TemplateFault {
  const known = templateNames.map((name) => `${name}.hbs`)
  const near = nearest(base, known)
  const named = (near.length === 0 ? known : near).map((each) => `\`${each}\``).join(', ')
  return {
    file,
    ...start,
    what: `No template is called \`${base}\`.`,
    danger: 'What is in it would be left off every sheet without a word.',
    mend: `Call it ${named}, or move it out of the folder.`
  }
}

function unreadable(file: string): TemplateFault {
  return {
    file,
    ...start,
    what: `The template is not UTF-8 text of at most ${largest} bytes.`,
    danger: 'What cannot be read as it was meant is printed as something else.',
    mend: 'Save it as UTF-8 and shorten it.'
  }
}

/** The parser tells the place in its message alone: a line number, and dashes up to the column; or `line:column` at its end. */
function notParsed(file: string, error: unknown): TemplateFault {
  const said = error instanceof Error ? error.message : String(error)
  const at = / - (\d+):(\d+)$/.exec(said)
  const line = Number(at?.[1] ?? /on line (\d+)/.exec(said)?.[1] ?? 1)
  const column = at === null ? (/^(-*)\^/m.exec(said)?.[1]?.length ?? 0) + 1 : Number(at[2]) + 1
  return {
    file,
    line,
    column,
    what: 'The braces of the template do not fit together.',
    danger: 'What they were to put in would be left off the sheet.',
    mend: 'Close every `{{` with `}}`, and every `{{#if name}}` with `{{/if}}`.'
  }
}
