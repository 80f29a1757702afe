import type { Quantity } from '@lockwright/energy'
import { type Faults, oneOf, quoted } from '../faults.js'
import type { ParameterName, Source, SourceKind } from '../front-matter.js'
import type { PointId, SourceId } from '../ids.js'
import type { Names } from '../names.js'
import { nearestKeys } from '../nearest.js'
import type { Place } from '../place.js'
import type { Fields } from './fields.js'
import type { ReadOnly } from './read-only.js'
import {
  commonSourceKeys,
  parameterDimensions,
  parameterNames,
  sourceKindNames,
  sourceKinds,
  standardSafeBelow
} from './source-kinds.js'

/** All keys that some kind of source takes. */
export const sourceKeys: readonly string[] = [
  ...new Set([
    ...commonSourceKeys,
    ...Object.values(sourceKinds).flatMap(({ required, optional }) => [...required, ...optional])
  ])
]

interface Context {
  readonly faults: Faults
  readonly names: Names
  readonly readOnly: ReadOnly
}

/** Reads every source under `energy:`. One without a readable kind is reported and left out. */
export function readSources(energy: Fields, context: Context): readonly Source[] {
  const feedPlaces = new Map<SourceId, Place>()
  const sources = energy.keys().flatMap(({ text, place }) => {
    const fields = energy.map(text, `the source ${quoted(text)}`)
    const source = fields === undefined ? undefined : readSource(text as SourceId, place, fields, context)
    if (fields === undefined || source === undefined) return []
    feedPlaces.set(source.id, fields.placeOfValue('fed-by'))
    return source
  })
  reportRings(sources, feedPlaces, context.faults)
  return sources
}

function readSource(id: SourceId, place: Place, fields: Fields, context: Context): Source | undefined {
  if (!fields.has('kind')) return fields.reportMissing('kind', `The source ${quoted(id)} has no ${quoted('kind')}.`)
  const kind = fields.word('kind', sourceKindNames)
  if (kind === undefined) return undefined
  checkKeys(id, kind, fields, context.faults)

  const quantities = readQuantities(kind, fields, context.faults)
  const phases = fields.whole('phases')
  const conductors = fields.names('conductors').map(({ text }) => text)
  const stores = fields.flag('stores')
  const relievable = fields.flag('relievable')
  const { stores: byKind, relievable: relievableByKind } = sourceKinds[kind]
  const unfed = fields.text('unfed')
  const guarded = fields.text('guarded')
  const category = fields.word('category', ['II', 'III', 'IV'])
  const surface = fields.text('surface')
  const contact = fields.text('contact')
  const describe = fields.text('describe')
  const source: Source = {
    id,
    place,
    kind,
    at: fields
      .names('at')
      .flatMap(({ text, place: at }) => (context.names.find(text, ['point'], at)?.name as PointId | undefined) ?? []),
    fedBy: fields
      .names('fed-by')
      .flatMap(({ text, place: by }) => (context.names.find(text, ['source'], by)?.name as SourceId | undefined) ?? []),
    ...(unfed === undefined ? {} : { unfed }),
    rebuilds: fields.flag('rebuilds') ?? false,
    ...(guarded === undefined ? {} : { guarded }),
    only: context.readOnly(fields),
    quantities,
    ...(phases === undefined ? {} : { phases }),
    conductors: conductors.length > 0 ? conductors : conductorsOf(phases),
    ...(category === undefined ? {} : { category }),
    ...(surface === undefined ? {} : { surface }),
    ...(contact === undefined ? {} : { contact }),
    ...(describe === undefined ? {} : { describe }),
    stores: byKind === 'declared' ? (stores ?? false) : byKind,
    relievable: relievableByKind === 'declared' ? (relievable ?? false) : relievableByKind
  }
  checkPhases(source, fields, context.faults)
  checkFeed(source, fields, context.faults)
  return source
}

function conductorsOf(phases: number | undefined): readonly string[] {
  if (phases === undefined) return []
  return phases === 1 ? ['L', 'N'] : Array.from({ length: Math.min(phases, 3) }, (_, index) => `L${index + 1}`)
}

/** Keys of this kind that are missing, and keys that belong to another kind or to none. */
function checkKeys(id: SourceId, kind: SourceKind, fields: Fields, faults: Faults): void {
  const { required, optional } = sourceKinds[kind]
  const known: readonly string[] = [...commonSourceKeys, ...required, ...optional]
  for (const { text, place } of fields.keys()) {
    if (known.includes(text)) continue
    if (sourceKeys.includes(text)) {
      faults.add(
        'wrong-parameter',
        place,
        `${quoted(text)} does not belong to a source of kind ${quoted(kind)}.`,
        `Take it out, or correct the kind; ${quoted(kind)} takes ${oneOf([...required, ...optional])}.`
      )
      continue
    }
    const near = nearestKeys(text, known)
    faults.add(
      'unknown-key',
      place,
      `${quoted(text)} is not a key of the source ${quoted(id)}.`,
      near.length > 0
        ? `Write ${oneOf(near)}, or take it out.`
        : `Take it out; ${quoted(kind)} takes ${oneOf([...required, ...optional])}.`
    )
  }
  for (const key of required) {
    if (!fields.has(key))
      fields.reportMissing(key, `${quoted(key)} is missing: a source of kind ${quoted(kind)} needs it.`)
  }
}

function readQuantities(kind: SourceKind, fields: Fields, faults: Faults): Partial<Record<ParameterName, Quantity>> {
  const quantities: Partial<Record<ParameterName, Quantity>> = {}
  const { required, optional, safeBelow } = sourceKinds[kind]
  for (const name of parameterNames) {
    if (!required.includes(name) && !optional.includes(name)) continue
    const quantity = fields.quantity(name, parameterDimensions[name])
    if (quantity === undefined) continue
    quantities[name] = quantity
    if (name === 'voltage' && quantity.current === 'ac' && (kind === 'capacitor' || kind === 'battery')) {
      faults.add(
        'bad-value',
        fields.placeOfValue(name),
        `A ${kind} holds direct voltage, and ${quoted(quantity.written)} is alternating.`,
        'Write the direct voltage that it holds, `V dc`; a capacitor on alternating voltage holds up to 1.42 times what a meter shows.'
      )
    }
    const mayBeZero = quantity.dimension === 'temperature' || quantity.dimension === 'pressure' || name === 'preload'
    if (!mayBeZero && quantity.si <= 0) {
      faults.add(
        'bad-value',
        fields.placeOfValue(name),
        `${quoted(name)} is ${quoted(quantity.written)}: nothing at all.`,
        'Write how much there is, or take the source out if there is none.'
      )
    }
  }
  const safe = fields.has('safe-below') ? fields.quantity('safe-below', safeBelow.dimensions) : standardSafeBelow(kind)
  if (safe !== undefined) quantities['safe-below'] = safe
  return quantities
}

function checkPhases(source: Source, fields: Fields, faults: Faults): void {
  if (source.kind !== 'electrical') return
  if (!fields.has('phases') && !fields.has('conductors')) {
    fields.reportMissing(
      'phases',
      `${quoted('phases')} or ${quoted('conductors')} is missing: an electrical source needs one of them.`
    )
  }
  if (source.phases !== undefined && source.phases > 3 && !fields.has('conductors')) {
    faults.add(
      'bad-value',
      fields.placeOfValue('phases'),
      `The conductors of ${source.phases} phases have no common names.`,
      'Name them: `conductors: [L1, L2, ...]`.'
    )
  }
}

/** At least one of `at`, `fed-by` and `unfed`; a battery needs none, and an electrical source is never unfed. */
function checkFeed(source: Source, fields: Fields, faults: Faults): void {
  const fed = ['at', 'fed-by'].filter((key) => fields.has(key))
  if (fields.has('unfed')) {
    const [other] = fed
    if (other !== undefined) {
      faults.add(
        'contradicting-feed',
        fields.placeOfKey('unfed'),
        `The source ${quoted(source.id)} cannot be unfed and have ${quoted(other)} as well.`,
        `Take out ${quoted('unfed')}, or ${quoted(other)}.`,
        [{ place: fields.placeOfKey(other), note: 'Here it says what feeds it.' }]
      )
    } else if (source.kind === 'electrical') {
      faults.add(
        'contradicting-feed',
        fields.placeOfKey('unfed'),
        `The electrical source ${quoted(source.id)} cannot be unfed: something always feeds it.`,
        'Name the devices that cut it off with `at:`, or the sources that feed it with `fed-by:`.'
      )
    }
    return
  }
  if (fed.length > 0 || source.kind === 'battery') return
  faults.add(
    'missing-feed',
    source.place,
    `Nothing says what feeds the source ${quoted(source.id)}.`,
    source.kind === 'electrical'
      ? 'Name the devices that cut it off with `at:`, or the sources that feed it with `fed-by:`.'
      : 'Name the devices that cut it off with `at:`, the sources that can charge it with `fed-by:`, or say why nothing feeds it with `unfed:`.'
  )
}

/** Each ring of feeders, once, at the `fed-by` of its first source. */
function reportRings(sources: readonly Source[], feedPlaces: ReadonlyMap<SourceId, Place>, faults: Faults): void {
  const byId = new Map(sources.map((source) => [source.id, source]))
  const settled = new Set<SourceId>()
  for (const start of sources) {
    if (settled.has(start.id)) continue
    // A walk with its path kept; every source is left for good once.
    const path: SourceId[] = []
    const walk: { readonly id: SourceId; next: number }[] = [{ id: start.id, next: 0 }]
    path.push(start.id)
    for (let top = walk.at(-1); top !== undefined; top = walk.at(-1)) {
      const feeder = byId.get(top.id)?.fedBy[top.next]
      top.next += 1
      if (feeder === undefined) {
        settled.add(top.id)
        walk.pop()
        path.pop()
        continue
      }
      const at = path.indexOf(feeder)
      if (at >= 0) reportRing(path.slice(at), byId, feedPlaces, faults)
      else if (!settled.has(feeder)) {
        walk.push({ id: feeder, next: 0 })
        path.push(feeder)
      }
    }
  }
}

function reportRing(
  ring: readonly SourceId[],
  byId: ReadonlyMap<SourceId, Source>,
  feedPlaces: ReadonlyMap<SourceId, Place>,
  faults: Faults
): void {
  const [first] = ring
  const source = first === undefined ? undefined : byId.get(first)
  if (source === undefined) return
  const way = [...ring, source.id].map((id) => quoted(id)).join(' is fed by ')
  faults.add(
    'fed-by-ring',
    feedPlaces.get(source.id) ?? source.place,
    ring.length === 1
      ? `The source ${quoted(source.id)} is fed by itself.`
      : `These sources feed each other in a ring: ${way}.`,
    'Take out the feed that is not there, or declare what they share as one source.',
    ring
      .slice(1)
      .flatMap((id) =>
        byId.get(id) === undefined
          ? []
          : [{ place: byId.get(id)?.place ?? source.place, note: `${quoted(id)} is in the ring.` }]
      )
  )
}
