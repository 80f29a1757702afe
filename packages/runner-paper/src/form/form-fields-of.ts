import type { StepId } from '@lockwright/language'
import type { StateId } from '@lockwright/machine'
import type { ProvedMachine } from '@lockwright/proof'
import type { Block, Card, Row } from '../blocks/block.js'
import { layOut } from '../blocks/lay-out.js'
import { english } from '../catalog.js'
import type { Generations } from '../print-options.js'
import { buildSheet } from '../sheet/build-sheet.js'
import { type FieldKind, type FormField, fieldName, type SheetPartName } from './form-field.js'

/** A field of the printed sheet, by the name that it bears in the PDF. */
export interface SheetField {
  /** `<state>.<pass>.<input>`, or `#part.1.<row>-<column>` in the tables of the sheet as a whole. */
  readonly name: string
  /** The state of the machine that asks for it; null in the tables of the sheet as a whole. */
  readonly state: StateId | null
  /** As printed behind the step's title; null where the record has no answer for the step. */
  readonly step: StepId | null
  /** For which time it is, from 1; a reading that may be taken again counts its attempts. */
  readonly pass: number
  readonly kind: FieldKind
  /** The id of the machine's input (`box-1`, `lock-Q1`, `reading-mains-L1-L2`, `notice-1`), or a fixed word. */
  readonly input: string
  readonly tip: string
  /** choice: the values that it can have (`answer-1`, a generation's id, `inside`, `outside`, `in-time`, `late`); else empty. */
  readonly values: readonly string[]
}

/**
 * Every field of a machine's sheet in the order of the page, each once. It is what `printProcedure` puts into the PDF of
 * the same machine and generations: the names depend on nothing else. The tips are English here; in a PDF they are in the
 * language of the sheet.
 */
export function formFieldsOf(machine: ProvedMachine, generations: Generations = {}): readonly SheetField[] {
  const blocks = layOut(
    buildSheet(machine, generations),
    // No name of a field comes from these.
    { paper: 'a4', issue: { kind: 'draft' }, digest: '', for: generations },
    english
  )
  const found = new Map<string, SheetField>()
  for (const { field, pass } of blocks.flatMap(placesOf)) {
    const name = fieldName(field, pass)
    const known = found.get(name)
    const value = field.value === undefined ? [] : [field.value]
    found.set(name, {
      name,
      state: isPart(field.owner) ? null : field.owner,
      step: field.step,
      pass,
      kind: field.kind,
      input: field.input,
      tip: field.tip,
      values: [...(known?.values ?? []), ...value]
    })
  }
  return [...found.values()]
}

interface Place {
  readonly field: FormField
  readonly pass: number
}

function placesOf(block: Block): readonly Place[] {
  switch (block.kind) {
    case 'table':
      return (block.fields ?? []).flat().flatMap((field) => places(field ?? undefined, 1))
    case 'ticks':
      return block.items.flatMap(({ field, blanks }) => [field, ...blanks.map((blank) => blank.field)].flatMap(once))
    case 'step':
      return cardPlaces(block.card)
    case 'title':
    case 'heading':
    case 'content':
    case 'panel':
    case 'plots':
    case 'legend':
    case 'flow':
      return []
  }
}

function cardPlaces(card: Card): readonly Place[] {
  const { times } = card
  return [
    ...card.notices.flatMap(({ field }) => places(field, times)),
    ...places(card.initials, times),
    ...places(card.time, times),
    ...card.rows.flatMap((row) => rowPlaces(row, times))
  ]
}

function rowPlaces(row: Row, times: number): readonly Place[] {
  switch (row.kind) {
    case 'entry':
      return [row.field, ...row.blanks.map(({ field }) => field)].flatMap((field) => places(field, times))
    case 'readings':
      return row.cells.flatMap((cell) => places(cell.field, cell.times))
    case 'way':
      return places(row.field, times)
    case 'content':
    case 'remark':
      return []
  }
}

function once(field: FormField | undefined): readonly Place[] {
  return places(field, 1)
}

function places(field: FormField | undefined, times: number): readonly Place[] {
  return field === undefined ? [] : Array.from({ length: times }, (_, index) => ({ field, pass: index + 1 }))
}

function isPart(owner: FormField['owner']): owner is SheetPartName {
  return owner.startsWith('#')
}
