import { formatQuantity } from '@lockwright/energy'
import { type FrontMatter, type Item, type Place, type Procedure, plainText, type Source } from '@lockwright/language'
import type { PermitId } from '../ids.js'
import type { Machine, MachineItem, MachineSource } from '../machine.js'
import type { Span } from '../state.js'
import { electricalWork } from './feeding.js'

export function spanOf({ start, end }: Place): Span {
  return { line: start.line, column: start.column, endLine: end.line, endColumn: end.column }
}

/** Sign-off steps as permits: the same names, another sort of id. */
export function permitsOf(steps: readonly string[]): readonly PermitId[] {
  return steps as readonly PermitId[]
}

/** Everything of the machine that is declared rather than done. */
export function declarationsOf(procedure: Procedure): Omit<Machine, 'start' | 'states'> {
  const { head } = procedure
  return {
    format: 'lockwright-machine/1',
    procedure: head.procedure,
    title: head.title,
    revision: head.revision,
    language: head.language,
    equipment: head.equipment,
    scope: head.scope,
    review: head.review,
    order: head.order,
    noStartControl: head.noStartControl ?? null,
    axes: head.axes.map(({ place, ...axis }) => ({ ...axis, span: spanOf(place) })),
    sources: head.sources.map(machineSource),
    points: head.points.map(({ place, ...point }) => ({ ...point, span: spanOf(place) })),
    restraints: head.restraints.map(({ place, needsPower, ...restraint }) => ({
      ...restraint,
      needsPower: needsPower ?? null,
      span: spanOf(place)
    })),
    roles: head.roles.map(({ place, ...role }) => ({ ...role, span: spanOf(place) })),
    items: procedure.items.map(machineItem),
    leftOn: head.leftOn.map(({ place, permits, source, why }) => ({
      source,
      why,
      permits: permitsOf(permits),
      span: spanOf(place)
    })),
    waivers: head.waivers.map(({ place, ...waiver }) => ({ ...waiver, span: spanOf(place) })),
    sections: procedure.body.flatMap((block) =>
      block.kind === 'heading'
        ? [{ id: block.id, level: block.level, title: block.title, span: spanOf(block.place) }]
        : []
    )
  }
}

function storeOf(source: Source): MachineSource['store'] {
  if (!source.stores) return 'none'
  return source.kind === 'battery' ? 'always-held' : 'can-be-let-out'
}

function machineSource(source: FrontMatter['sources'][number]): MachineSource {
  return {
    id: source.id,
    span: spanOf(source.place),
    kind: source.kind,
    at: source.at,
    fedBy: source.fedBy,
    unfed: source.unfed ?? null,
    rebuilds: source.rebuilds,
    guarded: source.guarded ?? null,
    only: source.only,
    store: storeOf(source),
    electricalWork: electricalWork(source),
    quantities: source.quantities,
    phases: source.phases ?? null,
    conductors: source.conductors,
    category: source.category ?? null,
    describe: source.describe ?? null,
    ...(source.surface === undefined ? {} : { surface: source.surface }),
    ...(source.contact === undefined ? {} : { contact: source.contact })
  }
}

function machineItem(item: Item): MachineItem {
  return {
    id: item.id,
    span: spanOf(item.place),
    kind: item.kind,
    label: plainText(item.label),
    details: detailsOf(item),
    measures: item.measures ?? null,
    rated: item.rated ?? null,
    category: item.category ?? null,
    range: item.range ?? null,
    needsCalibration: item.needsCalibration,
    glove: item.glove ?? null
  }
}

function detailsOf(item: Item): readonly string[] {
  return [
    ...(item.measures === undefined ? [] : [`measures ${item.measures}`]),
    ...(item.rated === undefined ? [] : [`rated ${formatQuantity(item.rated)}`]),
    ...(item.category === undefined ? [] : [`category ${item.category}`]),
    ...(item.range === undefined
      ? []
      : [`range ${formatQuantity(item.range.low)} to ${formatQuantity(item.range.high)}`]),
    ...(item.size === undefined ? [] : [`size ${item.size}`]),
    ...(item.torque === undefined ? [] : [`torque ${item.torque}`]),
    ...(item.needsCalibration ? ['in calibration'] : []),
    ...(item.number === undefined ? [] : [`number: ${item.number}`]),
    ...(item.quantity === undefined ? [] : [`quantity: ${item.quantity}`]),
    ...(item.glove === undefined ? [] : [`class ${item.glove}`])
  ]
}
