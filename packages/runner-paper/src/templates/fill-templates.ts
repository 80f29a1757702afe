import { nearest } from '@lockwright/language'
import type { Paper } from '../print-options.js'
import type { SheetTemplate, SheetTemplates, TemplateName } from './read-templates.js'
import type { TemplateFault } from './template-fault.js'
import { nestedValues, type TemplateValues } from './template-values.js'
import { type WordingKey, wordingKeys } from './wording-keys.js'

/** What the templates of a site gave for one sheet. What is absent is as it is without templates. */
export interface FilledTemplates {
  readonly letterhead?: string
  readonly header?: string
  readonly footer?: string
  /** Further rows of the first page; an empty value is a place to write in. */
  readonly fields: readonly { readonly label: string; readonly value: string }[]
  readonly wording: Readonly<Partial<Record<WordingKey, string>>>
  readonly paper?: Paper
}

export type Filled =
  | { readonly ok: true; readonly filled: FilledTemplates }
  | { readonly ok: false; readonly faults: readonly TemplateFault[] }

/** The longest that has room where it stands, in characters. */
const room = { letterhead: 160, header: 120, footer: 60, label: 30, value: 160, wording: 50 } as const
const mostFields = 12

// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
const unprintable = /[\u0000-\u0008\u000B-\u001F\u007F-\u009F\u061C\u200B-\u200F\u202A-\u202E\u2066-\u2069]/

interface Line {
  readonly text: string
  readonly line: number
}

/** Fills the templates with the values of one sheet; every fault of what came out at once. */
export async function fillTemplates(templates: SheetTemplates, values: TemplateValues): Promise<Filled> {
  const { default: handlebars } = await import('handlebars')
  const context = nestedValues(values)
  const faults: TemplateFault[] = []
  const fill = ({ source }: SheetTemplate): string =>
    handlebars.compile(source, { noEscape: true, strict: true, knownHelpersOnly: true })(context)
  const lines = (name: TemplateName): readonly Line[] => {
    const template = templates[name]
    if (template === undefined) return []
    const all = fill(template)
      .split(/\r?\n/)
      .map((text, index): Line => ({ text: text.trim(), line: index + 1 }))
    const bad = all.find(({ text }) => unprintable.test(text))
    if (bad !== undefined) faults.push(faultOf(template, bad.line, ...steering))
    return bad === undefined ? all.filter(({ text }) => text !== '') : []
  }
  const oneLine = (name: 'letterhead' | 'header' | 'footer'): string | undefined => {
    const template = templates[name]
    if (template === undefined) return undefined
    const text = lines(name)
      .map((line) => line.text)
      .join(' ')
    if (text.length > room[name]) faults.push(faultOf(template, 1, ...tooLong(text.length, room[name])))
    return text
  }
  const [letterhead, header, footer] = [oneLine('letterhead'), oneLine('header'), oneLine('footer')]
  const fields = fieldsOf(templates.fields, lines('fields'), faults)
  const wording = wordingOf(templates.wording, lines('wording'), faults)
  const paper = paperOf(templates.paper, lines('paper'), faults)
  if (faults.length > 0) return { ok: false, faults }
  return {
    ok: true,
    filled: {
      ...(letterhead === undefined ? {} : { letterhead }),
      ...(header === undefined ? {} : { header }),
      ...(footer === undefined ? {} : { footer }),
      fields,
      wording,
      ...(paper === undefined ? {} : { paper })
    }
  }
}

function fieldsOf(template: SheetTemplate | undefined, lines: readonly Line[], faults: TemplateFault[]) {
  if (template === undefined) return []
  const extra = lines[mostFields]
  if (extra !== undefined)
    faults.push(
      faultOf(
        template,
        extra.line,
        `There are more than ${mostFields} fields.`,
        'They would push the energy sources off the first page.',
        'Keep those that are filled in every time.'
      )
    )
  return lines.flatMap(({ text, line }) => {
    const [, label = '', value = ''] = /^([^:]+):\s*(.*)$/s.exec(text) ?? []
    if (label === '') faults.push(faultOf(template, line, ...noColon))
    else if (label.length > room.label) faults.push(faultOf(template, line, ...tooLong(label.length, room.label)))
    else if (value.length > room.value) faults.push(faultOf(template, line, ...tooLong(value.length, room.value)))
    return label === '' ? [] : [{ label, value }]
  })
}

function wordingOf(
  template: SheetTemplate | undefined,
  lines: readonly Line[],
  faults: TemplateFault[]
): Readonly<Partial<Record<WordingKey, string>>> {
  const wording: Partial<Record<WordingKey, string>> = {}
  if (template === undefined) return wording
  for (const { text, line } of lines) {
    const [, name = '', words = ''] = /^([^:]+):\s*(.*)$/s.exec(text) ?? []
    const key = wordingKeys.find((each) => each === name.trim())
    if (name === '' || words === '') faults.push(faultOf(template, line, ...noColon))
    else if (key === undefined) faults.push(faultOf(template, line, ...notOurs(name.trim())))
    else if (words.length > room.wording) faults.push(faultOf(template, line, ...tooLong(words.length, room.wording)))
    else wording[key] = words
  }
  return wording
}

function paperOf(
  template: SheetTemplate | undefined,
  lines: readonly Line[],
  faults: TemplateFault[]
): Paper | undefined {
  if (template === undefined) return undefined
  const said = lines.map(({ text }) => text).join(' ')
  if (said === 'a4' || said === 'letter') return said
  faults.push(
    faultOf(
      template,
      1,
      `\`${said}\` is no paper size.`,
      'A sheet that is printed on other paper than it is set for loses its edges, and with them the digest.',
      'Write `a4` or `letter`.'
    )
  )
  return undefined
}

type Sentences = readonly [what: string, danger: string, mend: string]

function faultOf({ file }: SheetTemplate, line: number, ...[what, danger, mend]: Sentences): TemplateFault {
  return { file, line, column: 1, what, danger, mend }
}

const steering: Sentences = [
  'What came out holds a control character or a mark that turns the reading order.',
  'A reader would see something else than what stands there.',
  'Take it out of the template, or out of the value that it puts in.'
]

const noColon: Sentences = [
  'This line has no name with a colon and what belongs to it.',
  'It would be left off the sheet.',
  'Write `Name: text`, or for a field `Name:` alone for a place to write in.'
]

function tooLong(length: number, most: number): Sentences {
  return [
    `This is ${length} characters long; there is room for ${most}.`,
    'What does not fit would be cut, and the reader would not know.',
    'Shorten it.'
  ]
}

function notOurs(name: string): Sentences {
  const near = nearest(name, wordingKeys)
  const named = (near.length === 0 ? wordingKeys : near).map((each) => `\`${each}\``).join(', ')
  return [
    `\`${name}\` is not wording that a site can change.`,
    'Signal words, cautions, gates and what was proved must read the same on every sheet, or people learn to read past them.',
    `What can be changed is ${named}.`
  ]
}
