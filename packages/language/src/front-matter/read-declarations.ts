import { type Faults, quoted } from '../faults.js'
import type { Axis, LeftOn, PointDeclaration, Restraint, RestraintKind, Role, Waiver } from '../front-matter.js'
import type { AxisId, AxisValueId, PointId, RestraintId, RoleId, SourceId, StepId } from '../ids.js'
import { mendName, type Names } from '../names.js'
import type { Fields } from './fields.js'
import type { ReadOnly } from './read-only.js'

export const restraintKinds = [
  'earth',
  'short',
  'block',
  'pin',
  'cover',
  'blank',
  'chain',
  'other'
] as const satisfies readonly RestraintKind[]
export const kindsThatNeedPower: readonly RestraintKind[] = ['block', 'pin', 'chain', 'other']
/** Obligations that may be waived; all others protect people directly. */
export const waivable: readonly string[] = ['gathered-first', 'all-reached']

export const pointKeys = ['is', 'where', 'safe', 'normal', 'only']
export const restraintKeys = ['kind', 'is', 'holds', 'needs-power', 'only']
export const roleKeys = ['name', 'holds', 'electrical']
export const axisKeys = ['ask', 'is']
export const axisValueKeys = ['name', 'tell']
export const leftOnKeys = ['why', 'permit']
export const waiverKeys = ['obligation', 'why', 'by']

/** One mapping of names to mappings, such as `points:`. */
function each<Item>(
  parent: Fields | undefined,
  known: readonly string[],
  owner: string,
  read: (fields: Fields, name: string) => Item | undefined
): readonly Item[] {
  if (parent === undefined) return []
  return parent.keys().flatMap(({ text }) => {
    const fields = parent.map(text, `${owner} ${quoted(text)}`, known)
    return (fields === undefined ? undefined : read(fields, text)) ?? []
  })
}

export function readAxes(hardware: Fields | undefined, names: Names): readonly Axis[] {
  return each(hardware, axisKeys, 'the axis', (fields, id): Axis | undefined => {
    const spelled = names.spelled(id, fields.place)
    const ask = fields.requiredText('ask')
    if (!fields.has('is')) fields.reportMissing('is')
    const values = each(
      fields.map('is', `the axis ${quoted(id)}`),
      axisValueKeys,
      'the generation',
      (value, valueId) =>
        names.spelled(valueId, value.place)
          ? { id: valueId as AxisValueId, name: value.requiredText('name'), tell: value.requiredText('tell') }
          : undefined
    )
    return spelled ? { id: id as AxisId, place: fields.place, ask, values } : undefined
  })
}

export function readPoints(points: Fields | undefined, readOnly: ReadOnly): readonly PointDeclaration[] {
  return each(points, pointKeys, 'the device', (fields, id) => ({
    id: id as PointId,
    place: fields.place,
    is: fields.requiredText('is'),
    where: fields.requiredText('where'),
    safe: fields.requiredText('safe'),
    normal: fields.word('normal', ['on', 'off']) ?? 'on',
    only: readOnly(fields)
  }))
}

export function readRestraints(
  restraints: Fields | undefined,
  names: Names,
  readOnly: ReadOnly,
  faults: Faults
): readonly Restraint[] {
  return each(restraints, restraintKeys, 'the restraint', (fields, id): Restraint => {
    if (!fields.has('kind')) fields.reportMissing('kind')
    if (!fields.has('holds')) fields.reportMissing('holds')
    const kind = fields.word('kind', restraintKinds) ?? 'other'
    const needsPower = fields.text('needs-power')
    if (fields.has('needs-power') && !kindsThatNeedPower.includes(kind)) {
      faults.add(
        'wrong-parameter',
        fields.placeOfKey('needs-power'),
        `${quoted('needs-power')} does not belong to a restraint of kind ${quoted(kind)}.`,
        `Take it out; only ${kindsThatNeedPower.map((other) => quoted(other)).join(', ')} can need power to come out.`
      )
    }
    return {
      id: id as RestraintId,
      place: fields.place,
      kind,
      is: fields.requiredText('is'),
      holds: fields
        .names('holds')
        .flatMap(({ text, place }) => (names.find(text, ['source'], place)?.name as SourceId | undefined) ?? []),
      ...(needsPower === undefined ? {} : { needsPower }),
      only: readOnly(fields)
    }
  })
}

export function readRoles(roles: Fields | undefined, names: Names): readonly Role[] {
  return each(roles, roleKeys, 'the role', (fields, id) => ({
    id: id as RoleId,
    place: fields.place,
    name: fields.requiredText('name'),
    holds: fields.names('holds').flatMap(({ text, place }) => (names.spelled(text, place) ? text : [])),
    electrical: fields.flag('electrical') ?? false
  }))
}

export function readLeftOn(leftOn: Fields | undefined, names: Names): readonly LeftOn[] {
  return each(leftOn, leftOnKeys, 'the source left on', (fields, name): LeftOn | undefined => {
    const source = names.find(name, ['source'], fields.place)?.name as SourceId | undefined
    const why = fields.requiredText('why')
    if (!fields.has('permit')) fields.reportMissing('permit')
    const permits = fields
      .names('permit')
      .flatMap(({ text, place }) => (names.find(text, ['sign-off'], place)?.name as StepId | undefined) ?? [])
    return source === undefined ? undefined : { source, place: fields.place, why, permits }
  })
}

export function readWaivers(waivers: readonly Fields[], faults: Faults): readonly Waiver[] {
  return waivers.map((fields) => {
    const obligation = fields.requiredText('obligation')
    if (obligation !== '' && !waivable.includes(obligation)) {
      faults.add(
        'bad-waiver',
        fields.placeOfValue('obligation'),
        `The obligation ${quoted(obligation)} cannot be waived.`,
        mendName(obligation, waivable)
      )
    }
    return { obligation, place: fields.place, why: fields.requiredText('why'), by: fields.requiredText('by') }
  })
}
