import type { State } from '@lockwright/machine'
import type { Catalog } from '../catalog.js'
import { fieldMaker, isAnswered } from '../form/field-maker.js'
import type { Sheet, SheetStep } from '../sheet/sheet.js'
import { askedRows } from './asked-rows.js'
import type { Block, Card, CardShape } from './block.js'
import type { Names } from './names.js'
import { remarkRows } from './remark-rows.js'
import { wayRows } from './way-rows.js'

/** How many times there is room for on a step that can come again. */
const timesOnLoop = 3

/** The numbered steps under their headings. */
export function stepBlocks(sheet: Sheet, names: Names, catalog: Catalog): readonly Block[] {
  return sheet.parts.flatMap((part) => [
    ...part.headings.flatMap((heading): readonly Block[] => [
      {
        kind: 'heading',
        level: heading.level === 1 ? 2 : 3,
        text: heading.opens === 'first' ? heading.title : `${heading.title} (${catalog.opens[heading.opens]})`
      },
      ...(heading.prose.length === 0 ? [] : [{ kind: 'content', content: heading.prose } as const])
    ]),
    ...part.steps.map((step): Block => ({ kind: 'step', card: cardOf(sheet, step, names, catalog) }))
  ])
}

function cardOf(sheet: Sheet, step: SheetStep, names: Names, catalog: Catalog): Card {
  const { state } = step
  const { heads } = catalog
  const rests = isAnswered(state.kind)
  const field = fieldMaker(step, catalog)
  const times = step.again ? timesOnLoop : 1
  return {
    number: step.number,
    title: state.title,
    name: rests ? state.step : '',
    kind: state.kind,
    bar: catalog.bars[state.kind],
    shape: shapeOf(state, step.gate),
    rail: names.rail(step.rails),
    intro: step.intro,
    notices: state.notices.map(({ id, word, label, body }) => ({
      word,
      signal: catalog.signalWords[word],
      label,
      body,
      field: field('tick', id, `${catalog.signalWords[word]} ${label}: ${catalog.steps.acknowledge}`)
    })),
    rows: [
      ...remarkRows(sheet, step, names, catalog),
      ...askedRows(sheet, step, times, names, catalog),
      ...wayRows(sheet, step, catalog)
    ],
    signed: rests,
    times,
    ...(rests
      ? { initials: field('initials', 'initials', heads.initials), time: field('time', 'time', heads.time) }
      : {})
  }
}

export function shapeOf(state: State, gate: boolean): CardShape {
  if (gate) return 'gate'
  switch (state.kind) {
    case 'stop':
      return 'stop'
    case 'ask':
    case 'identify':
    case 'branch':
      return 'choice'
    case 'live':
      return 'live'
    case 'measure':
      return state.why === null && state.permits.length === 0 ? 'plain' : 'live'
    default:
      return 'plain'
  }
}
