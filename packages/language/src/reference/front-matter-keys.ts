import { kindsThatNeedPower, restraintKinds, waivable } from '../front-matter/read-declarations.js'
import { sourceKindNames } from '../front-matter/source-kinds.js'

/** Whose key it is; `source` names the keys of every kind of source, and those that no quantity stands in. */
export type KeyOwner =
  | 'procedure'
  | 'equipment'
  | 'axis'
  | 'generation'
  | 'source'
  | 'point'
  | 'restraint'
  | 'role'
  | 'left-on'
  | 'waiver'

export interface FrontMatterKey {
  readonly of: KeyOwner
  readonly key: string
  /** A default in words, or whether the key has to be there. */
  readonly need: 'required' | 'optional' | `default ${string}`
  readonly meaning: string
  /** One line that can be copied; the indent of its place is left off. */
  readonly example: string
}

const word = (name: string): string => `\`${name}\``

function key(
  of: KeyOwner,
  name: string,
  need: FrontMatterKey['need'],
  meaning: string,
  example: string
): FrontMatterKey {
  return { of, key: name, need, meaning, example }
}

/** Every key of the front matter that is not a quantity of some kind of source. */
export const frontMatterKeys: readonly FrontMatterKey[] = [
  key(
    'procedure',
    'procedure',
    'required',
    'id of the procedure, the same over all revisions',
    'procedure: P202-PRECHARGE'
  ),
  key('procedure', 'title', 'required', 'what is done, in a few words', 'title: Replace the pre-charge module'),
  key('procedure', 'revision', 'required', 'whole number, one more with each revision', 'revision: 3'),
  key(
    'procedure',
    'equipment',
    'required',
    'what it is done on: `tag`, `name`, `place`',
    'equipment: { tag: P-202, name: Booster pump 2, place: Sandholm waterworks }'
  ),
  key(
    'procedure',
    'scope',
    'required',
    'what the procedure is for, and what it is not for',
    'scope: Changing the module. Not for work on the motor.'
  ),
  key(
    'procedure',
    'energy',
    'required',
    'every source by its name, also those that stay on',
    'energy: { mains: { kind: electrical, voltage: 400 V ac, phases: 3, at: [Q1] } }'
  ),
  key('procedure', 'language', 'default `en`', 'language of the text, as a tag of BCP 47', 'language: pt-BR'),
  key(
    'procedure',
    'review',
    'default `P1Y`',
    'time between periodic inspections, as a duration of ISO 8601',
    'review: P6M'
  ),
  key(
    'procedure',
    'order',
    'default `general`',
    '`general` (29 CFR 1910.147: lock, then let out) or `electrical` (29 CFR 1910.333: let out, then lock)',
    'order: electrical'
  ),
  key(
    'procedure',
    'hardware',
    'optional',
    'axes on which generations of the equipment differ, by name',
    'hardware: { cabinet: { ask: Which series?, is: { old: { name: Old, tell: Grey door }, new: { name: New, tell: Blue door } } } }'
  ),
  key(
    'procedure',
    'points',
    'optional',
    'energy-isolating devices by name',
    'points: { Q1: { is: switch-disconnector, where: left door, safe: handle at O } }'
  ),
  key(
    'procedure',
    'restraints',
    'optional',
    'what holds energy back while work goes on, by name',
    'restraints: { pin: { kind: pin, is: shaft locking pin, holds: [rotor] } }'
  ),
  key(
    'procedure',
    'roles',
    'optional',
    'who may do or sign a step, by name',
    'roles: { owner: { name: Equipment owner } }'
  ),
  key(
    'procedure',
    'left-on',
    'optional',
    'sources that stay on during all hands-on work, by name',
    'left-on: { heater: { why: it keeps the cabinet dry, permit: heater-stays } }'
  ),
  key(
    'procedure',
    'no-start-control',
    'optional',
    'why there is no start control to try',
    'no-start-control: a valve has no drive'
  ),
  key(
    'procedure',
    'waive',
    'optional',
    `waivers; only ${waivable.map(word).join(' and ')} can be waived`,
    'waive: [{ obligation: gathered-first, why: the crane is always there, by: Works manager }]'
  ),
  key('procedure', 'translates', 'optional', 'the file that this one is a translation of', 'translates: pump.en.md'),
  key('procedure', 'template', 'optional', 'written for a kind of machine; not supported yet', 'template: false'),

  key('equipment', 'tag', 'required', 'the tag on the machine', 'tag: P-202'),
  key('equipment', 'name', 'required', 'what people call it', 'name: Booster pump 2'),
  key('equipment', 'place', 'required', 'where it stands', 'place: Sandholm waterworks'),

  key('axis', 'ask', 'required', 'the question that finds the generation out', 'ask: Which series is the cabinet?'),
  key('axis', 'is', 'required', 'the generations by name', 'is: { old: { name: Old, tell: Grey door } }'),
  key('generation', 'name', 'required', 'its name in words', 'name: Series S'),
  key('generation', 'tell', 'required', 'how to tell it', 'tell: Plate code starts with S'),

  key('source', 'kind', 'required', sourceKindNames.map(word).join(', '), 'kind: electrical'),
  key(
    'source',
    'at',
    'optional',
    'devices that cut it off. A source has `at`, `fed-by` or both, or `unfed`; a battery needs none, an electrical source is never unfed',
    'at: [Q1]'
  ),
  key('source', 'fed-by', 'optional', 'sources that can charge it again', 'fed-by: [mains]'),
  key('source', 'unfed', 'optional', 'why nothing feeds it', 'unfed: wound by hand'),
  key(
    'source',
    'rebuilds',
    'default `false`',
    'its energy can come back with nothing feeding it; then only a restraint keeps it dead',
    'rebuilds: true'
  ),
  key(
    'source',
    'guarded',
    'optional',
    'how a fixed barrier that this work does not open keeps hands off it',
    'guarded: behind the bolted panel'
  ),
  key('source', 'only', 'optional', 'the generations that have it', 'only: { cabinet: new }'),
  key('source', 'category', 'optional', 'overvoltage category of the circuit: `II`, `III` or `IV`', 'category: III'),
  key(
    'source',
    'conductors',
    'optional',
    'names of the conductors; made from `phases` where left off. Required for a capacitor and a battery',
    'conductors: [DC+, DC-]'
  ),
  key('source', 'phases', 'optional', 'of an electrical source: 1 gives L and N, 3 gives L1, L2, L3', 'phases: 3'),
  key('source', 'surface', 'optional', 'of a thermal source: what is touched', 'surface: steel'),
  key('source', 'contact', 'optional', 'of a thermal source: how long it is touched', 'contact: 1 s'),
  key('source', 'describe', 'optional', 'of kind `other`, and required there: what it is', 'describe: a laser'),
  key(
    'source',
    'stores',
    'default `false`',
    'of kind `other`: whether energy stays in it once it is cut off',
    'stores: true'
  ),
  key('source', 'relievable', 'default `false`', 'of kind `other`: whether it can be let out', 'relievable: true'),

  key('point', 'is', 'required', 'what sort of device it is', 'is: switch-disconnector'),
  key('point', 'where', 'required', 'where it is found', 'where: left door of the cabinet'),
  key('point', 'safe', 'required', 'its position when it isolates', 'safe: handle at O'),
  key('point', 'normal', 'default `on`', 'its position in service: `on` or `off`', 'normal: off'),
  key('point', 'only', 'optional', 'the generations that have it', 'only: { cabinet: new }'),

  key('restraint', 'kind', 'required', restraintKinds.map(word).join(', '), 'kind: pin'),
  key('restraint', 'is', 'required', 'what it is', 'is: shaft locking pin'),
  key('restraint', 'holds', 'required', 'the sources that it holds', 'holds: [rotor]'),
  key(
    'restraint',
    'needs-power',
    'optional',
    `why it comes out only once power has lifted the load; for ${kindsThatNeedPower.map(word).join(', ')}`,
    'needs-power: the load rests on it'
  ),
  key('restraint', 'only', 'optional', 'the generations that have it', 'only: { cabinet: new }'),

  key('role', 'name', 'required', 'its name in words', 'name: Qualified electrical person'),
  key('role', 'holds', 'optional', 'qualifications of the roster that it asks for', 'holds: [electrical-lv]'),
  key('role', 'electrical', 'default `false`', 'qualified for electrical work', 'electrical: true'),

  key('left-on', 'why', 'required', 'why it stays on', 'why: it keeps the cabinet dry'),
  key('left-on', 'permit', 'required', 'the sign-off that allows it', 'permit: heater-stays'),

  key('waiver', 'obligation', 'required', `${waivable.map(word).join(' or ')}`, 'obligation: gathered-first'),
  key('waiver', 'why', 'required', 'why it may be waived here', 'why: the crane is always there'),
  key('waiver', 'by', 'required', 'who answers for it', 'by: Works manager')
]

export const ownerWords: Readonly<Record<KeyOwner, string>> = {
  procedure: 'the procedure',
  equipment: 'the equipment',
  axis: 'an axis under `hardware`',
  generation: 'a generation under `is`',
  source: 'a source under `energy`',
  point: 'a device under `points`',
  restraint: 'a restraint under `restraints`',
  role: 'a role under `roles`',
  'left-on': 'a source under `left-on`',
  waiver: 'an entry of `waive`'
}
