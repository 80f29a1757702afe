/** The few words in which the schema is written. */

export const ref = (n) => ({ $ref: `#/$defs/${n}` })
/** Text that may be empty. */
export const str = { type: 'string' }
export const text = { type: 'string', minLength: 1 }
export const bool = { type: 'boolean' }
export const num = { type: 'number' }
export const nat = { type: 'integer', minimum: 0 }
export const pos = { type: 'integer', minimum: 1 }
export const list = (items, more = {}) => ({ type: 'array', items, ...more })
export const some = (items) => list(items, { minItems: 1 })
export const orNull = (s) =>
  s.$ref || s.enum || s.const ? { oneOf: [s, { type: 'null' }] } : { ...s, type: [s.type, 'null'] }
export const obj = (properties, optional = [], more = {}) => ({
  type: 'object',
  ...more,
  properties,
  required: Object.keys(properties).filter((k) => !optional.includes(k)),
  additionalProperties: false
})
/** What one kind adds to the properties that all share; the state closes itself with `unevaluatedProperties`. */
export const part = (kind, properties = {}) => ({
  properties: { kind: Array.isArray(kind) ? { enum: kind } : { const: kind }, ...properties },
  required: ['kind', ...Object.keys(properties)]
})
export const member = (kind, properties) =>
  obj({ kind: Array.isArray(kind) ? { enum: kind } : { const: kind }, ...properties })
/** A member of a union that is told by `key`; of several values one. */
const by = (key) => (value, properties) =>
  obj({ [key]: Array.isArray(value) ? { enum: value } : { const: value }, ...properties })
export const is = by('is')
export const does = by('does')
export const on = by('on')
export const id = ref('id')
export const ids = list(id)
export const contents = list(ref('content'))
export const dims = [
  'voltage',
  'current',
  'capacitance',
  'resistance',
  'inductance',
  'charge',
  'power',
  'energy',
  'time',
  'pressure',
  'volume',
  'length',
  'mass',
  'inertia',
  'angular-speed',
  'torque',
  'force',
  'force-per-length',
  'temperature',
  'area',
  'frequency',
  'flow',
  'speed',
  'number'
]
