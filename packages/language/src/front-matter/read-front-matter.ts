import { Faults, quoted } from '../faults.js'
import type { FrontMatter } from '../front-matter.js'
import type { Names, Sort } from '../names.js'
import type { SourceText } from '../source-text.js'
import { Fields } from './fields.js'
import {
  readAxes,
  readLeftOn,
  readPoints,
  readRestraints,
  readRoles,
  readWaivers,
  waiverKeys
} from './read-declarations.js'
import { onlyReader } from './read-only.js'
import { readSources } from './read-sources.js'
import type { YamlMapping } from './yaml-tree.js'

export const requiredKeys = ['procedure', 'title', 'revision', 'equipment', 'scope', 'energy']
export const optionalKeys = [
  'language',
  'review',
  'order',
  'hardware',
  'points',
  'restraints',
  'roles',
  'left-on',
  'no-start-control',
  'waive',
  'translates',
  'template'
]
export const equipmentKeys = ['tag', 'name', 'place']

// ISO 8601-1: designators in this order, at least one of them, fractions only in the last.
const duration = /^P(?=\d|T\d)(?:\d+Y)?(?:\d+M)?(?:\d+W)?(?:\d+D)?(?:T(?=\d)(?:\d+H)?(?:\d+M)?(?:\d+(?:\.\d+)?S)?)?$/
// BCP 47 (RFC 5646): a language, then subtags of one to eight letters or digits.
const languageTag = /^[A-Za-z]{2,8}(?:-[A-Za-z0-9]{1,8})*$/
const documentId = /^[\p{L}\p{M}\p{N}_+.-]{1,100}$/u

/** The front matter with its first look taken: its keys are known and its names declared. */
export function openFrontMatter(tree: YamlMapping, source: SourceText, names: Names, faults: Faults): Fields {
  const place = source.placeOfLine(1)
  const known = [...requiredKeys, ...optionalKeys]
  const fields = new Fields(source, faults, tree, 'the front matter', place, known)
  const spaces: readonly [string, Sort][] = [
    ['energy', 'source'],
    ['points', 'point'],
    ['restraints', 'restraint'],
    ['roles', 'role']
  ]
  // Only looked at here: what is wrong inside is reported when it is read.
  const quiet = new Fields(source, new Faults(), tree, '', place)
  // Where a whole group of declarations may hide under a wrong key, the names that are not found are no faults.
  names.incomplete = !fields.has('energy') || fields.keys().some(({ text }) => !known.includes(text))
  for (const [key, sort] of spaces) {
    const declared = quiet.map(key, '')
    if (declared === undefined && fields.has(key)) names.incomplete = true
    for (const written of declared?.keys() ?? []) {
      const inside = declared?.map(written.text, '')
      const label = sort === 'restraint' ? inside?.text('is') : sort === 'role' ? inside?.text('name') : undefined
      names.declare({ name: written.text, sort, place: written.place, label: label ?? written.text })
    }
  }
  return fields
}

/** Types the front matter; every fault is reported and something is put in its place. */
export function readFrontMatter(fields: Fields, names: Names, faults: Faults): FrontMatter {
  for (const key of requiredKeys) {
    if (!fields.has(key)) fields.reportMissing(key)
  }
  if (fields.flag('template') === true) {
    faults.add(
      'template-not-filled',
      fields.placeOfKey('template'),
      'This file is a template, and templates come later.',
      'Write the procedure for one machine, without `template: true`.'
    )
  }
  const axes = readAxes(fields.map('hardware', 'the front matter'), names)
  const readOnly = onlyReader(axes, faults)
  const equipment = fields.map('equipment', quoted('equipment'), equipmentKeys)
  const energy = fields.map('energy', quoted('energy'))
  if (energy !== undefined && energy.keys().length === 0) {
    faults.add(
      'missing-key',
      fields.placeOfKey('energy'),
      'No energy source is declared.',
      'Declare every source under `energy:`, also those that stay on.'
    )
  }
  const noStartControl = fields.text('no-start-control')
  const translates = fields.text('translates')
  return {
    procedure: shaped(fields, 'procedure', documentId, 'letters, digits, `-`, `_`, `+` and `.`', faults) ?? '',
    title: fields.text('title') ?? '',
    revision: fields.whole('revision') ?? 0,
    language:
      shaped(fields, 'language', languageTag, 'a language tag of BCP 47, such as `en` or `pt-BR`', faults) ?? 'en',
    equipment: {
      tag: equipment?.requiredText('tag') ?? '',
      name: equipment?.requiredText('name') ?? '',
      place: equipment?.requiredText('place') ?? ''
    },
    scope: fields.text('scope') ?? '',
    review: shaped(fields, 'review', duration, 'a duration of ISO 8601, such as `P1Y` or `P6M`', faults) ?? 'P1Y',
    order: fields.word('order', ['general', 'electrical']) ?? 'general',
    ...(noStartControl === undefined ? {} : { noStartControl }),
    ...(translates === undefined ? {} : { translates }),
    axes,
    sources: energy === undefined ? [] : readSources(energy, { faults, names, readOnly }),
    points: readPoints(fields.map('points', quoted('points')), readOnly),
    restraints: readRestraints(fields.map('restraints', quoted('restraints')), names, readOnly, faults),
    roles: readRoles(fields.map('roles', quoted('roles')), names),
    leftOn: readLeftOn(fields.map('left-on', quoted('left-on')), names),
    waivers: readWaivers(fields.maps('waive', 'a waiver', waiverKeys), faults)
  }
}

function shaped(fields: Fields, key: string, pattern: RegExp, wanted: string, faults: Faults): string | undefined {
  const text = fields.text(key)
  if (text === undefined || pattern.test(text)) return text
  faults.add(
    'bad-value',
    fields.placeOfValue(key),
    `${quoted(key)} is ${quoted(text)}, which is not ${wanted}.`,
    `Write ${wanted}.`
  )
  return undefined
}

/** What stands for front matter that could not be read. */
export const emptyFrontMatter: FrontMatter = {
  procedure: '',
  title: '',
  revision: 0,
  language: 'en',
  equipment: { tag: '', name: '', place: '' },
  scope: '',
  review: 'P1Y',
  order: 'general',
  axes: [],
  sources: [],
  points: [],
  restraints: [],
  roles: [],
  leftOn: [],
  waivers: []
}
