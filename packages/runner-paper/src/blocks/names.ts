import type { ItemId, PointId, RestraintId, RoleId, SourceId } from '@lockwright/language'
import type { Only, PermitId, StateId, Thing } from '@lockwright/machine'
import type { Catalog } from '../catalog.js'
import { presenceOf, railsOf } from '../sheet/presence.js'
import type { Rail, Sheet } from '../sheet/sheet.js'

/** How the things of one sheet are called in print, and whether they are on it at all. */
export interface Names {
  readonly present: (thing: Thing) => boolean
  /** ` (Series T only)` behind a thing that is not on every generation of this sheet; else empty. */
  readonly suffix: (only: Only) => string
  readonly rail: (rails: readonly Rail[]) => string
  readonly sources: (ids: readonly SourceId[]) => string
  readonly points: (ids: readonly PointId[]) => string
  readonly restraints: (ids: readonly RestraintId[]) => string
  readonly items: (ids: readonly ItemId[]) => string
  readonly role: (id: RoleId) => string
  readonly steps: (numbers: readonly number[]) => string
  /** The steps that give a permit. */
  readonly permits: (ids: readonly PermitId[]) => string
}

export function namesOf(sheet: Sheet, catalog: Catalog): Names {
  const { machine } = sheet
  const known = new Map(sheet.chosen.map(({ axis, value }) => [axis.id, value.id]))
  const { has } = presenceOf(machine, known)
  const rail = (rails: readonly Rail[]): string =>
    rails.map(({ values }) => catalog.tells.rails(values.map(({ name }) => name).join(', '))).join('; ')
  const suffix = (only: Only): string => {
    const rails = railsOf(machine, only, known)
    return rails.length === 0 ? '' : ` (${rail(rails)})`
  }
  const listed = <Id extends string>(
    ids: readonly Id[],
    declared: readonly { readonly id: Id; readonly only: Only }[],
    thing: (id: Id) => Thing
  ): string =>
    ids
      .filter((id) => has(thing(id)))
      .map((id) => `${id}${suffix(declared.find((each) => each.id === id)?.only ?? [])}`)
      .join(', ')
  return {
    present: has,
    suffix,
    rail,
    sources: (ids) => listed(ids, machine.sources, (id) => ({ kind: 'source', id })),
    points: (ids) => listed(ids, machine.points, (id) => ({ kind: 'point', id })),
    restraints: (ids) => listed(ids, machine.restraints, (id) => ({ kind: 'restraint', id })),
    items: (ids) => ids.map((id) => machine.items.find((item) => item.id === id)?.label ?? id).join(', '),
    role: (id) => machine.roles.find((role) => role.id === id)?.name ?? id,
    steps: (numbers) => catalog.tells.steps(numbers),
    permits: (ids) => catalog.tells.steps(numbersOf(sheet, ids))
  }
}

function numbersOf(sheet: Sheet, permits: readonly PermitId[]): readonly number[] {
  const ids: readonly (PermitId | StateId)[] = permits
  return sheet.steps.flatMap(({ state, number }) =>
    state.kind === 'signoff' && (ids.includes(state.permit) || ids.includes(state.id)) ? [number] : []
  )
}
