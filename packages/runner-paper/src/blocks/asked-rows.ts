import type { Content, ItemId, PointId } from '@lockwright/language'
import type { Catalog } from '../catalog.js'
import { type FieldMaker, fieldMaker } from '../form/field-maker.js'
import type { FormField } from '../form/form-field.js'
import type { Sheet, SheetStep } from '../sheet/sheet.js'
import { paragraph, say, stress } from '../text/say.js'
import type { Blank, Row } from './block.js'
import { inputRows } from './input-rows.js'
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
  const field = fieldMaker(step, catalog)
  const body = bodyRows(state.body, inputs, field)
  switch (state.kind) {
    case 'gather':
      return [ticked(steps.gather, field('tick', 'gathered', steps.gather)), ...body]
    case 'notify':
      return [
        ...body,
        ticked(steps.told, field('tick', 'told', steps.told), [
          { label: steps.byWhom, size: 'medium', field: field('name', 'told-by', steps.byWhom) }
        ])
      ]
    case 'isolate':
      return [
        ...body,
        ...state.points.flatMap((id) =>
          pointRow(sheet, id, steps.isolatePoint, [], field('tick', `safe-${id}`, id), names)
        )
      ]
    case 'lock':
      return [
        ...body,
        ...state.points.flatMap((id) =>
          pointRow(
            sheet,
            id,
            steps.lockPoint,
            lockBlanks(id, 'lock', field, catalog),
            field('tick', `safe-${id}`, id),
            names
          )
        )
      ]
    case 'unlock':
      return [
        ...body,
        ...state.points.flatMap((id) =>
          pointRow(
            sheet,
            id,
            () => steps.unlockPoint,
            lockBlanks(id, 'unlock', field, catalog),
            field('tick', `off-${id}`, id),
            names
          )
        )
      ]
    case 'energize':
      return [
        ...body,
        ...state.points.flatMap((id) =>
          pointRow(sheet, id, () => steps.energizePoint, [], field('tick', `on-${id}`, id), names)
        )
      ]
    case 'restrain':
    case 'remove':
      return [
        ...body,
        ...sheet.machine.restraints
          .filter(({ id }) => state.restraints.includes(id) && names.present({ kind: 'restraint', id }))
          .map((restraint): Row => {
            const on = state.kind === 'restrain'
            const done = on ? steps.restraintOn : steps.restraintOff
            return thingEntry(
              restraint.id,
              ` ${restraint.is}${names.suffix(restraint.only)}: ${done}`,
              [],
              field('tick', `${on ? 'on' : 'off'}-${restraint.id}`, `${restraint.id} ${done}`)
            )
          })
      ]
    case 'lamp':
      return [
        ...body,
        ...state.sources.flatMap((id): readonly Row[] => {
          const name = names.sources([id])
          const seen = state.expect === 'dark' ? steps.lampDark : steps.lampLit
          return name === '' ? [] : [thingEntry(name, `: ${seen}`, [], field('tick', `lamp-${id}`, `${id} ${seen}`))]
        })
      ]
    case 'signoff':
      return [
        ...body,
        entry(steps.signAs(names.role(state.role)), [
          { label: steps.byWhom, size: 'long', field: field('signature', 'sign', steps.signAs(names.role(state.role))) }
        ])
      ]
    case 'timer':
      return [
        entry(steps.timer(state.seconds), [
          { label: steps.started, size: 'short', field: field('time', 'started', steps.started) },
          { label: steps.deadline, size: 'short', field: field('time', 'deadline', steps.deadline) }
        ]),
        ...body
      ]
    case 'tryout':
      return [...body, ...(hasList(state.body) ? [] : [ticked(steps.tried, field('tick', 'tried', steps.tried))])]
    case 'relieve': {
      const asked = inputRows(inputs, times, step.retake, field, names, catalog)
      const told = names.sources(state.sources)
      const box =
        hasList(state.body) || asked.length > 0 || told === ''
          ? []
          : [ticked(steps.letOut(told), field('tick', 'let-out', steps.letOut(told)))]
      return [...body, ...box, ...asked]
    }
    case 'stop':
      return [...body, entry('', [{ label: steps.left, size: 'long', field: field('text', 'left', steps.left) }])]
    case 'prove':
    case 'measure':
      return [
        ...body,
        ...instrumentRows(sheet, state.with, field, catalog),
        ...inputRows(inputs, times, step.retake, field, names, catalog)
      ]
    default:
      return [...body, ...inputRows(inputs, times, step.retake, field, names, catalog)]
  }
}

/** The number of each instrument that is used, so that the record can tell whether it was in calibration. */
function instrumentRows(
  { machine }: Sheet,
  used: readonly ItemId[],
  field: FieldMaker,
  { steps }: Catalog
): readonly Row[] {
  return machine.items
    .filter((item) => used.includes(item.id) && item.measures !== null)
    .map(({ id, label, needsCalibration }) =>
      entry(label, [
        {
          label: steps.serial,
          size: 'medium',
          field: field('instrument', `instrument-${id}`, `${label}: ${steps.serial}`)
        },
        ...(needsCalibration
          ? [
              {
                label: steps.due,
                size: 'short',
                field: field('date', `instrument-${id}-due`, `${label}: ${steps.due}`)
              } as const
            ]
          : [])
      ])
    )
}

/** The body as written; the items of its top-level lists are the boxes, in the order in which the machine asks for them. */
function bodyRows(body: readonly Content[], inputs: SheetStep['inputs'], field: FieldMaker): readonly Row[] {
  const boxes = inputs.flatMap((input) => (input.kind === 'box' && input.of === 'item' ? [input] : []))
  let at = 0
  return body.flatMap((content): readonly Row[] => {
    if (content.kind !== 'list') return [{ kind: 'content', content: [content] }]
    return content.items.map((item): Row => {
      const box = boxes[at]
      at += 1
      return {
        kind: 'entry',
        mark: 'box',
        content: item,
        blanks: [],
        field: field('tick', box?.id ?? `box-${at}`, box?.text ?? '')
      }
    })
  })
}

/** Without a list a step has no boxes of the author's. */
function hasList(body: readonly Content[]): boolean {
  return body.some(({ kind }) => kind === 'list')
}

/** The number goes by the name of the machine's own input. */
function lockBlanks(id: PointId, what: 'lock' | 'unlock', field: FieldMaker, { steps }: Catalog): readonly Blank[] {
  return [
    { label: steps.lockNumber, size: 'short', field: field('lock', `${what}-${id}`, `${id}: ${steps.lockNumber}`) },
    { label: steps.byWhom, size: 'medium', field: field('name', `${what}-${id}-by`, `${id}: ${steps.byWhom}`) }
  ]
}

function pointRow(
  sheet: Sheet,
  id: PointId,
  done: (safe: string) => string,
  blanks: readonly Blank[],
  tick: FormField,
  names: Names
): readonly Row[] {
  const point = sheet.machine.points.find((each) => each.id === id)
  if (point === undefined || !names.present({ kind: 'point', id })) return []
  const told = done(point.safe)
  return [
    thingEntry(point.id, ` ${point.is}, ${point.where}${names.suffix(point.only)}: ${told}`, blanks, {
      ...tick,
      tip: `${tick.tip}: ${told}`
    })
  ]
}

function thingEntry(id: string, text: string, blanks: readonly Blank[], field: FormField): Row {
  return { kind: 'entry', mark: 'box', content: paragraph([...stress(id), ...say(text)]), blanks, field }
}

function ticked(text: string, field: FormField, blanks: readonly Blank[] = []): Row {
  return { kind: 'entry', mark: 'box', content: paragraph(say(text)), blanks, field }
}

function entry(text: string, blanks: readonly Blank[]): Row {
  return { kind: 'entry', mark: 'none', content: paragraph(say(text)), blanks }
}
