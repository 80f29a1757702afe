import { plainText, type Runs } from '@lockwright/language'
import type { Catalog } from '../catalog.js'
import type { Sheet, SheetStep, Way } from '../sheet/sheet.js'
import type { Block, FlowRow } from './block.js'
import type { Names } from './names.js'
import { shapeOf } from './step-blocks.js'
import { wayRows } from './way-rows.js'

/** The way through the procedure at a glance: a line for each step, with where its answers lead. */
export function flowBlocks(sheet: Sheet, names: Names, catalog: Catalog): readonly Block[] {
  const { form } = catalog
  const rows = sheet.parts.flatMap((part): readonly FlowRow[] => [
    ...part.headings.map(
      ({ title, opens }): FlowRow => ({
        kind: 'heading',
        text: opens === 'first' ? title : `${title} (${catalog.opens[opens]})`
      })
    ),
    ...part.steps.flatMap((step) => stepRows(sheet, step, names, catalog))
  ])
  return [
    { kind: 'heading', level: 2, text: form.flow },
    { kind: 'flow', rows, tell: form.flowTell, alternate: alternate(rows, catalog) }
  ]
}

function stepRows(sheet: Sheet, step: SheetStep, names: Names, catalog: Catalog): readonly FlowRow[] {
  const { number, state } = step
  const exits = wayRows(sheet, step, catalog).flatMap((row): readonly FlowRow[] => {
    if (row.kind !== 'way') return []
    const to = row.to ?? null
    // Ways off this sheet are told on the step; the map shows where one goes on.
    if (to === null && row.mark === 'none') return []
    return [{ kind: 'exit', from: number, text: told(row.text), to, next: to === number + 1 }]
  })
  return [
    {
      kind: 'node',
      number,
      title: state.title,
      shape: state.kind === 'finish' ? 'finish' : shapeOf(state, step.gate),
      rail: names.rail(step.rails),
      falls: step.ways.some((way) => fallsOn(way)) && exits.every((exit) => exit.kind !== 'exit' || exit.next)
    },
    ...exits
  ]
}

function fallsOn({ next, on }: Way): boolean {
  return next && on !== 'again'
}

function told(text: Runs): string {
  return plainText(text).replaceAll('\u00A0', ' ')
}

/** Every turn in words, for those who do not see the lines. */
function alternate(rows: readonly FlowRow[], { form, tells }: Catalog): string {
  const turns = rows.flatMap((row) =>
    row.kind === 'exit' && row.to !== null ? [form.turn(tells.step(row.from), row.text, tells.step(row.to))] : []
  )
  const count = rows.filter(({ kind }) => kind === 'node').length
  return [form.flowOf(count), ...turns].join(' ')
}
