import type { SourceId } from '@lockwright/language'
import type { Input } from '@lockwright/machine'
import type { Catalog } from '../catalog.js'
import type { FieldMaker } from '../form/field-maker.js'
import { limitText } from '../text/limit-text.js'
import { paragraph, say, stress } from '../text/say.js'
import type { ReadingCell, Row } from './block.js'
import type { Names } from './names.js'

/** The boxes, readings and waits that the machine itself asks for, in its order. */
export function inputRows(
  inputs: readonly Input[],
  times: number,
  retake: boolean,
  field: FieldMaker,
  names: Names,
  catalog: Catalog
): readonly Row[] {
  const rows: Row[] = []
  for (const input of inputs) {
    switch (input.kind) {
      case 'box':
        if (input.of !== 'item') rows.push(...fixedBox(input, field, names, catalog))
        break
      case 'reading':
        addReading(rows, input, retake ? Math.max(times, 3) : times, field, catalog)
        break
      case 'wait':
        rows.push(waitRow(input, field, catalog))
        break
      // Locks stand with their points.
      case 'lock':
      case 'unlock':
        break
    }
  }
  return rows
}

function fixedBox(
  input: Extract<Input, { kind: 'box' }>,
  field: FieldMaker,
  names: Names,
  { steps }: Catalog
): readonly Row[] {
  const box = (text: string): readonly Row[] => [
    { kind: 'entry', mark: 'box', content: paragraph(say(text)), blanks: [], field: field('tick', input.id, text) }
  ]
  switch (input.of) {
    case 'tester-before':
      return box(`${steps.testerBefore} ${input.text === '' ? steps.known : input.text}`)
    case 'tester-after':
      return box(`${steps.testerAfter} ${input.text === '' ? steps.known : input.text}`)
    case 'trial': {
      const name = input.source === null ? input.text : names.sources([input.source])
      return name === '' ? [] : box(steps.trial(name))
    }
    case 'item':
      return []
  }
}

/** Readings of one source that follow each other stand together, its limit beside each blank. */
function addReading(
  rows: Row[],
  input: Extract<Input, { kind: 'reading' }>,
  times: number,
  field: FieldMaker,
  catalog: Catalog
): void {
  const { caption, label } = readingLabel(input.label, input.source)
  const { unit } = input
  const limit = limitText(input.limits, unit, catalog)
  const tip = `${input.label}${unit === '' ? '' : `, ${unit}`}: ${limit}`
  const cell: ReadingCell = { label, unit, limit, times, field: field('reading', input.id, tip) }
  const last = rows.at(-1)
  if (last?.kind === 'readings' && last.caption === caption)
    rows[rows.length - 1] = { ...last, cells: [...last.cells, cell] }
  else rows.push({ kind: 'readings', caption, cells: [cell] })
}

function readingLabel(label: string, source: SourceId | null): { readonly caption: string; readonly label: string } {
  if (source === null || !label.startsWith(source)) return { caption: '', label }
  const rest = label.slice(source.length).replace(/^[:\s]+/, '')
  return rest === '' ? { caption: '', label } : { caption: source, label: rest }
}

function waitRow(wait: Extract<Input, { kind: 'wait' }>, field: FieldMaker, { steps, tells }: Catalog): Row {
  const { id, source, seconds, because } = wait
  const of = source === null ? '' : `${source}: `
  return {
    kind: 'entry',
    mark: 'box',
    content: paragraph([...say(of), ...stress(steps.wait(seconds)), ...say(` (${tells.because[because]})`)]),
    blanks: [
      { label: steps.started, size: 'short', field: field('time', `${id}-started`, `${of}${steps.started}`) },
      { label: steps.ends, size: 'short', field: field('time', `${id}-ends`, `${of}${steps.ends}`) }
    ],
    field: field('tick', id, `${of}${steps.wait(seconds)}`)
  }
}
