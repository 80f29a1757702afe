import type { ItemId } from '../ids.js'
import type { Item } from '../procedure.js'
import type { BodyContext } from './context.js'
import type { DirectiveUse } from './directive-use.js'
import { readLine } from './read-content.js'

/** Reads `::tool`, `::part` or `::wear`. */
export function readItem(use: DirectiveUse, context: BodyContext): Item {
  const { attributes } = use
  const common = {
    id: (use.id?.text ?? '') as ItemId,
    label: readLine(use.label, context, { items: [] }),
    place: use.place,
    needsCalibration: false
  }
  if (use.name === 'part') {
    return {
      ...common,
      kind: 'part',
      ...given('number', attributes.text('number')),
      ...given('quantity', attributes.text('quantity'))
    }
  }
  if (use.name === 'wear') {
    return { ...common, kind: 'wear', ...given('glove', attributes.word<NonNullable<Item['glove']>>('class')) }
  }
  return {
    ...common,
    kind: 'tool',
    ...given('measures', attributes.text('measures')),
    ...given('rated', attributes.quantity('rated')),
    ...given('category', attributes.word<NonNullable<Item['category']>>('category')),
    ...given('range', attributes.range('range')),
    ...given('size', attributes.text('size')),
    ...given('torque', attributes.text('torque')),
    needsCalibration: attributes.flag('needs-calibration')
  }
}

/** A property that is left out where there is no value. */
export function given<Key extends string, Value>(
  key: Key,
  value: Value | undefined
): { readonly [Name in Key]?: Value } {
  return value === undefined ? {} : ({ [key]: value } as { readonly [Name in Key]?: Value })
}
