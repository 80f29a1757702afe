import type { Content, ItemId, PointId, SourceId } from '@lockwright/language'
import type { Input } from '@lockwright/machine'
import type { Catalog } from '../catalog.js'
import type { Sheet, SheetStep } from '../sheet/sheet.js'
import { limitText } from '../text/limit-text.js'
import { paragraph, say, stress } from '../text/say.js'
import type { Blank, ReadingCell, Row } from './block.js'
import type { Names } from './names.js'

/** What the step says and asks for: the items of its lists as boxes, then the fixed boxes, locks, readings and waits. */
export function askedRows(
  sheet: Sheet,
  step: SheetStep,
  times: number,
  names: Names,
  catalog: Catalog
): readonly Row[] {
  const { state, inputs } = step
  const { steps } = catalog
  switch (state.kind) {
    case 'gather':
      return [entry('box', steps.gather), ...bodyRows(state.body)]
    case 'notify':
      return [...bodyRows(state.body), entry('box', steps.told, [{ label: steps.byWhom, size: 'medium' }])]
    case 'isolate':
      return [
        ...bodyRows(state.body),
        ...state.points.flatMap((id) => pointRow(sheet, id, steps.isolatePoint, [], names))
      ]
    case 'lock':
      return [
        ...bodyRows(state.body),
        ...state.points.flatMap((id) => pointRow(sheet, id, steps.lockPoint, lockBlanks(catalog), names))
      ]
    case 'unlock':
      return [
        ...bodyRows(state.body),
        ...state.points.flatMap((id) => pointRow(sheet, id, () => steps.unlockPoint, lockBlanks(catalog), names))
      ]
    case 'energize':
      return [
        ...bodyRows(state.body),
        ...state.points.flatMap((id) => pointRow(sheet, id, () => steps.energizePoint, [], names))
      ]
    case 'restrain':
    case 'remove':
      return [
        ...bodyRows(state.body),
        ...sheet.machine.restraints
          .filter(({ id }) => state.restraints.includes(id) && names.present({ kind: 'restraint', id }))
          .map((restraint): Row => {
            const done = state.kind === 'restrain' ? steps.restraintOn : steps.restraintOff
            return thingEntry(restraint.id, ` ${restraint.is}${names.suffix(restraint.only)}: ${done}`, [])
          })
      ]
    case 'lamp':
      return [
        ...bodyRows(state.body),
        ...state.sources.flatMap((id): readonly Row[] => {
          const name = names.sources([id])
          return name === ''
            ? []
            : [thingEntry(name, `: ${state.expect === 'dark' ? steps.lampDark : steps.lampLit}`, [])]
        })
      ]
    case 'signoff':
      return [
        ...bodyRows(state.body),
        entry('none', steps.signAs(names.role(state.role)), [{ label: steps.byWhom, size: 'long' }])
      ]
    case 'timer':
      return [
        entry('none', steps.timer(state.seconds), [
          { label: steps.started, size: 'short' },
          { label: steps.deadline, size: 'short' }
        ]),
        ...bodyRows(state.body)
      ]
    case 'tryout':
      return [...bodyRows(state.body), ...(hasList(state.body) ? [] : [entry('box', steps.tried)])]
    case 'relieve': {
      const asked = inputRows(inputs, times, step.retake, names, catalog)
      const told = names.sources(state.sources)
      const box = hasList(state.body) || asked.length > 0 || told === '' ? [] : [entry('box', steps.letOut(told))]
      return [...bodyRows(state.body), ...box, ...asked]
    }
    case 'stop':
      return [...bodyRows(state.body), entry('none', '', [{ label: steps.left, size: 'long' }])]
    case 'prove':
    case 'measure':
      return [
        ...bodyRows(state.body),
        ...instrumentRows(sheet, state.with, catalog),
        ...inputRows(inputs, times, step.retake, names, catalog)
      ]
    default:
      return [...bodyRows(state.body), ...inputRows(inputs, times, step.retake, names, catalog)]
  }
}

/** The number of each instrument that is used, so that the record can tell whether it was in calibration. */
function instrumentRows({ machine }: Sheet, used: readonly ItemId[], { steps }: Catalog): readonly Row[] {
  return machine.items
    .filter((item) => used.includes(item.id) && item.measures !== null)
    .map(({ label, needsCalibration }) =>
      entry('none', label, [
        { label: steps.serial, size: 'medium' },
        ...(needsCalibration ? [{ label: steps.due, size: 'short' } as const] : [])
      ])
    )
}

/** The body as written; the items of its top-level lists are the boxes. */
function bodyRows(body: readonly Content[]): readonly Row[] {
  return body.flatMap((content): readonly Row[] =>
    content.kind === 'list'
      ? content.items.map((item) => ({ kind: 'entry', mark: 'box', content: item, blanks: [] }))
      : [{ kind: 'content', content: [content] }]
  )
}

/** Without a list a step has no boxes of the author's. */
function hasList(body: readonly Content[]): boolean {
  return body.some(({ kind }) => kind === 'list')
}

function lockBlanks({ steps }: Catalog): readonly Blank[] {
  return [
    { label: steps.lockNumber, size: 'short' },
    { label: steps.byWhom, size: 'medium' }
  ]
}

function inputRows(
  inputs: readonly Input[],
  times: number,
  retake: boolean,
  names: Names,
  catalog: Catalog
): readonly Row[] {
  const rows: Row[] = []
  for (const input of inputs) {
    switch (input.kind) {
      case 'box':
        if (input.of !== 'item') rows.push(...fixedBox(input, names, catalog))
        break
      case 'reading':
        addReading(rows, input, retake ? Math.max(times, 3) : times, catalog)
        break
      case 'wait':
        rows.push(waitRow(input, catalog))
        break
      // Locks stand with their points.
      case 'lock':
      case 'unlock':
        break
    }
  }
  return rows
}

function fixedBox(input: Extract<Input, { kind: 'box' }>, names: Names, { steps }: Catalog): readonly Row[] {
  switch (input.of) {
    case 'tester-before':
      return [entry('box', `${steps.testerBefore} ${input.text === '' ? steps.known : input.text}`)]
    case 'tester-after':
      return [entry('box', `${steps.testerAfter} ${input.text === '' ? steps.known : input.text}`)]
    case 'trial': {
      const name = input.source === null ? input.text : names.sources([input.source])
      return name === '' ? [] : [entry('box', steps.trial(name))]
    }
    case 'item':
      return []
  }
}

/** Readings of one source that follow each other stand together, its limit beside each blank. */
function addReading(rows: Row[], input: Extract<Input, { kind: 'reading' }>, times: number, catalog: Catalog): void {
  const { caption, label } = readingLabel(input.label, input.source)
  const cell: ReadingCell = { label, unit: input.unit, limit: limitText(input.limits, input.unit, catalog), times }
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

function waitRow(wait: Extract<Input, { kind: 'wait' }>, { steps, tells }: Catalog): Row {
  const { source, seconds, because } = wait
  return {
    kind: 'entry',
    mark: 'box',
    content: paragraph([
      ...say(source === null ? '' : `${source}: `),
      ...stress(steps.wait(seconds)),
      ...say(` (${tells.because[because]})`)
    ]),
    blanks: [
      { label: steps.started, size: 'short' },
      { label: steps.ends, size: 'short' }
    ]
  }
}

function pointRow(
  sheet: Sheet,
  id: PointId,
  done: (safe: string) => string,
  blanks: readonly Blank[],
  names: Names
): readonly Row[] {
  const point = sheet.machine.points.find((each) => each.id === id)
  if (point === undefined || !names.present({ kind: 'point', id })) return []
  return [thingEntry(point.id, ` ${point.is}, ${point.where}${names.suffix(point.only)}: ${done(point.safe)}`, blanks)]
}

function thingEntry(id: string, text: string, blanks: readonly Blank[]): Row {
  return { kind: 'entry', mark: 'box', content: paragraph([...stress(id), ...say(text)]), blanks }
}

function entry(mark: 'box' | 'none', text: string, blanks: readonly Blank[] = []): Row {
  return { kind: 'entry', mark, content: paragraph(say(text)), blanks }
}
