import type { Catalog } from '../catalog.js'
import type { SheetStep } from '../sheet/sheet.js'
import type { FieldKind, FormField } from './form-field.js'

/** Makes the fields of one step; `label` is what stands beside the field on the sheet. */
export type FieldMaker = (kind: FieldKind, input: string, label: string, value?: string) => FormField

export function fieldMaker({ state, number }: SheetStep, { tells }: Catalog): FieldMaker {
  const told = tells.step(number)
  const place = `${told.charAt(0).toUpperCase()}${told.slice(1)}`
  return (kind, input, label, value) => ({
    owner: state.id,
    step: isAnswered(state.kind) ? state.step : null,
    kind,
    input,
    tip: label === '' ? place : `${place}. ${label}`.replaceAll('\u00A0', ' '),
    ...(value === undefined ? {} : { value })
  })
}

/** What passes of itself is nobody's to sign, and has no answer in the record. */
export function isAnswered(kind: SheetStep['state']['kind']): boolean {
  return kind !== 'branch' && kind !== 'timer' && kind !== 'back'
}
