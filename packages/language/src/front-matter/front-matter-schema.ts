import {
  axisKeys,
  axisValueKeys,
  kindsThatNeedPower,
  leftOnKeys,
  pointKeys,
  restraintKeys,
  restraintKinds,
  roleKeys,
  waivable,
  waiverKeys
} from './read-declarations.js'
import { equipmentKeys, optionalKeys, requiredKeys } from './read-front-matter.js'
import { commonSourceKeys, sourceKindNames, sourceKinds } from './source-kinds.js'

type Schema = { readonly [key: string]: unknown }

const reference = (name: string): Schema => ({ $ref: `#/$defs/${name}` })
const text = reference('text')
const names = reference('names')
const flag: Schema = { type: 'boolean' }
const quantity = reference('quantity')

function mapping(known: readonly string[], required: readonly string[], properties: Schema): Schema {
  return {
    type: 'object',
    required,
    properties: Object.fromEntries(known.map((key) => [key, properties[key] ?? text])),
    additionalProperties: false
  }
}

function named(items: Schema): Schema {
  return { type: 'object', propertyNames: reference('id'), additionalProperties: items }
}

const ofSource: Schema = {
  at: names,
  'fed-by': names,
  rebuilds: flag,
  only: reference('only'),
  'safe-below': quantity,
  category: { enum: ['II', 'III', 'IV'] },
  conductors: names,
  phases: { type: 'integer', minimum: 1 },
  stores: flag,
  relievable: flag,
  surface: text,
  contact: text,
  describe: text,
  unfed: text,
  guarded: text
}

/** One shape for each kind of source: what it must and may have. */
function source(kind: (typeof sourceKindNames)[number]): Schema {
  const { required, optional } = sourceKinds[kind]
  const electrical = kind === 'electrical'
  const known = [...commonSourceKeys.filter((key) => !electrical || key !== 'unfed'), ...required, ...optional]
  const properties = Object.fromEntries(known.map((key) => [key, ofSource[key] ?? quantity]))
  return {
    type: 'object',
    required: ['kind', ...required],
    properties: { ...properties, kind: { const: kind } },
    additionalProperties: false,
    ...(electrical
      ? { allOf: [either(['phases', 'conductors']), either(['at', 'fed-by'])] }
      : { dependentSchemas: { unfed: { properties: { at: false, 'fed-by': false } } } }),
    ...(electrical || kind === 'battery' ? {} : either(['at', 'fed-by', 'unfed']))
  }
}

function either(keys: readonly string[]): Schema {
  return { anyOf: keys.map((key) => ({ required: [key] })) }
}

/**
 * The JSON Schema of the front matter, drawn from the tables that the parser reads by. It says what a schema can say;
 * whether names are declared, quantities fit their keys and feeds make no ring is the parser's.
 */
export const frontMatterSchema: Schema = {
  $schema: 'https://json-schema.org/draft/2020-12/schema',
  $id: 'https://lockwright.invalid/schema/front-matter.schema.json',
  title: 'Front matter of a lockwright procedure, language version 1',
  ...mapping([...requiredKeys, ...optionalKeys], requiredKeys, {
    procedure: { type: ['string', 'number'], pattern: '^[\\p{L}\\p{M}\\p{N}_+.-]{1,100}$' },
    revision: { type: 'integer', minimum: 1 },
    language: { type: 'string', pattern: '^[A-Za-z]{2,8}(-[A-Za-z0-9]{1,8})*$' },
    equipment: mapping(equipmentKeys, equipmentKeys, {}),
    review: {
      type: 'string',
      pattern: '^P(?=\\d|T\\d)(\\d+Y)?(\\d+M)?(\\d+W)?(\\d+D)?(T(?=\\d)(\\d+H)?(\\d+M)?(\\d+(\\.\\d+)?S)?)?$'
    },
    order: { enum: ['general', 'electrical'] },
    hardware: named(mapping(axisKeys, axisKeys, { is: named(mapping(axisValueKeys, axisValueKeys, {})) })),
    energy: {
      ...named({
        type: 'object',
        required: ['kind'],
        oneOf: sourceKindNames.map((kind) => reference(`source-${kind}`))
      }),
      minProperties: 1
    },
    points: named(
      mapping(pointKeys, ['is', 'where', 'safe'], { normal: { enum: ['on', 'off'] }, only: reference('only') })
    ),
    restraints: named({
      ...mapping(restraintKeys, ['kind', 'is', 'holds'], {
        kind: { enum: restraintKinds },
        holds: names,
        only: reference('only')
      }),
      dependentSchemas: { 'needs-power': { properties: { kind: { enum: kindsThatNeedPower } } } }
    }),
    roles: named(mapping(roleKeys, ['name'], { holds: names, electrical: flag })),
    'left-on': named(mapping(leftOnKeys, leftOnKeys, { permit: names })),
    waive: { type: 'array', items: mapping(waiverKeys, waiverKeys, { obligation: { enum: waivable } }) },
    template: { const: false, description: 'Templates come later.' }
  }),
  $defs: {
    // YAML reads a bare number as one; the language takes it as the text it is.
    text: { type: ['string', 'number'], pattern: '\\S' },
    id: { type: 'string', pattern: '^[\\p{L}\\p{M}\\p{N}_+-]{1,100}$' },
    names: {
      description: 'One or several names: a list, or one text with spaces between them.',
      oneOf: [
        { type: ['string', 'number'], pattern: '\\S' },
        { type: 'array', minItems: 1, items: { type: ['string', 'number'], pattern: '\\S' } }
      ]
    },
    quantity: {
      description: 'number unit [ac|dc] [± tolerance %]',
      type: 'string',
      pattern: '^\\s*[-+−]?\\d+(\\.\\d+)?\\s*[^\\d\\s,]'
    },
    only: { description: 'Exists on these generations alone: axis to one or several of its values.', ...named(names) },
    ...Object.fromEntries(sourceKindNames.map((kind) => [`source-${kind}`, source(kind)]))
  }
}
