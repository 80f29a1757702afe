import type { Faults } from '../faults.js'
import { quoted } from '../faults.js'
import type { Axis, Only } from '../front-matter.js'
import { mendName } from '../names.js'
import type { Fields } from './fields.js'

/** Reads `only: { cabinet: series-t }` of a source, point or restraint. */
export type ReadOnly = (fields: Fields) => Only

export function onlyReader(axes: readonly Axis[], faults: Faults): ReadOnly {
  return (fields) => {
    const only = fields.map('only', '`only`')
    if (only === undefined) return []
    return only.keys().flatMap(({ text, place }) => {
      const axis = axes.find(({ id }) => id === text)
      if (axis === undefined) {
        faults.add(
          'unknown-name',
          place,
          `There is no hardware axis ${quoted(text)}.`,
          mendName(
            text,
            axes.map(({ id }) => id)
          )
        )
        return []
      }
      const values = only.names(text).flatMap((written) => {
        const value = axis.values.find(({ id }) => id === written.text)
        if (value !== undefined) return value.id
        faults.add(
          'unknown-name',
          written.place,
          `${quoted(written.text)} is not a generation on the axis ${quoted(text)}.`,
          mendName(
            written.text,
            axis.values.map(({ id }) => id)
          )
        )
        return []
      })
      return { axis: axis.id, values }
    })
  }
}
