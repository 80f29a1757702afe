import { plainText, type Runs } from '@lockwright/language'
import type { Catalog } from '../catalog.js'
import { fieldMaker } from '../form/field-maker.js'
import { lateExitOf } from '../sheet/late-exit-of.js'
import type { Sheet, SheetStep, Way } from '../sheet/sheet.js'
import { limitText } from '../text/limit-text.js'
import { say, stress } from '../text/say.js'
import type { Row } from './block.js'

type WayRow = Extract<Row, { kind: 'way' }>

/** Where to go on: nothing where it is simply the next step. */
export function wayRows(sheet: Sheet, step: SheetStep, catalog: Catalog): readonly Row[] {
  const { ways, steps } = catalog
  const field = fieldMaker(step, catalog)
  const chosen = sheet.chosen.length > 0
  const forked = step.ways.some(({ on }) => on === 'outside')
  const timed = step.ways.some(({ on }) => on === 'late')
  const retake: readonly Row[] = step.retake
    ? [
        {
          kind: 'remark',
          text: say(`${steps.retake} ${forked ? steps.retakeThenWay(ways.outside) : steps.retakeThenStop}`)
        }
      ]
    : []
  const rows = step.ways.flatMap((way): readonly Row[] => {
    const row = (mark: WayRow['mark'], text: Runs, value = ''): WayRow => ({
      kind: 'way',
      mark,
      text,
      says: way.says,
      go: goText(step, way, catalog),
      ...(way.to === null ? {} : { to: way.to }),
      ...(value === '' ? {} : { field: field('choice', 'choice', plainText(text), value) })
    })
    switch (way.on) {
      case 'done':
        if (timed) return [row('circle', stress(ways.inTime), 'in-time')]
        return way.next && way.says.length === 0 ? [] : [row('none', [])]
      case 'inside':
        if (forked) return [row('circle', [...stress(ways.inside), ...say(insideText(step, catalog))], 'inside')]
        return way.next ? [] : [row('none', [])]
      case 'again':
        return []
      case 'outside':
        return [row('circle', stress(ways.outside), 'outside')]
      case 'answer':
        return [row('circle', stress(way.label), way.answer)]
      case 'identified':
        // Each generation is a circle of its own: which one was found is part of the record.
        return way.values.map((value) => ({
          ...row('circle', generation(value.name, value.tell, catalog), value.id),
          go: way.to === null ? ways.otherSheet : way.next && !chosen ? '' : goText(step, way, catalog)
        }))
      case 'value':
        return [
          row(
            'circle',
            way.values.flatMap((value, index) => [
              ...say(index === 0 ? '' : '; '),
              ...generation(value.name, value.tell, catalog)
            ]),
            way.values.map(({ id }) => id).join('_')
          )
        ]
      case 'late':
        return [{ ...row('circle', stress(ways.late), 'late'), says: [] }]
    }
  })
  return [...retake, ...rows, ...lateOfTimer(sheet, step, catalog)]
}

/** A clock's own step tells once what is done when the time runs out. */
function lateOfTimer(sheet: Sheet, { state, number }: SheetStep, catalog: Catalog): readonly Row[] {
  const exit = lateExitOf(
    state.id,
    sheet.steps.map((step) => step.state)
  )
  const to = exit === null ? undefined : sheet.numbers.get(exit.to)
  if (exit === null || to === undefined) return []
  return [
    {
      kind: 'way',
      mark: 'none',
      text: stress(catalog.ways.late),
      says: exit.says,
      go: to > number ? catalog.ways.goOn(to) : catalog.ways.goBack(to),
      to
    }
  ]
}

function insideText({ inputs }: SheetStep, catalog: Catalog): string {
  const reading = inputs.find((input) => input.kind === 'reading')
  return reading?.kind === 'reading' ? `: ${limitText(reading.limits, reading.unit, catalog)}` : ''
}

function generation(name: string, tell: string, { ways }: Catalog): Runs {
  const told = ways.generation(name, tell)
  return told.startsWith(name) ? [...stress(name), ...say(told.slice(name.length))] : say(told)
}

function goText({ number }: SheetStep, { to }: Way, { ways }: Catalog): string {
  if (to === null) return ways.otherSheet
  return to > number ? ways.goOn(to) : ways.goBack(to)
}
