/**
 * Writes `machine.schema.json`, the published form of the types in `src/machine.ts` and `src/condition.ts`.
 * `node packages/machine/schema/write-schema.mjs`; a test compares the file with what this gives.
 */
import { writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import {
  bool,
  contents,
  dims,
  does,
  id,
  ids,
  is,
  list,
  member,
  nat,
  num,
  obj,
  on,
  orNull,
  part,
  pos,
  ref,
  some,
  str,
  text
} from './schema-words.mjs'

/** JSON Schema, draft 2020-12. */
export const schema = {
  $schema: 'https://json-schema.org/draft/2020-12/schema',
  $id: 'https://lockwright.invalid/schema/machine-1.schema.json',
  title: 'A lockwright machine, format 1',
  description:
    'A compiled procedure: plain JSON, its guards and effects as data. Being valid here says that the file is well formed, not that its obligations hold: prove it again before it is run.',
  ...obj({
    format: { const: 'lockwright-machine/1' },
    procedure: text,
    title: text,
    revision: pos,
    language: text,
    equipment: obj({ tag: str, name: str, place: str }),
    scope: str,
    review: { type: 'string', pattern: '^P', description: 'ISO 8601 duration between periodic inspections' },
    order: { enum: ['general', 'electrical'] },
    noStartControl: orNull(str),
    axes: list(ref('axis')),
    sources: some(ref('source')),
    points: list(ref('point')),
    restraints: list(ref('restraint')),
    roles: list(ref('role')),
    items: list(ref('item')),
    leftOn: list(ref('leftOn')),
    waivers: list(obj({ obligation: text, span: ref('span'), why: str, by: str })),
    sections: list(obj({ id, level: { type: 'integer', minimum: 1, maximum: 6 }, title: str, span: ref('span') })),
    start: id,
    states: some(ref('state'))
  }),
  $defs: {
    id: { type: 'string', minLength: 1, description: 'An id of the procedure, or one made by the compiler' },
    span: obj({ line: pos, column: pos, endLine: pos, endColumn: pos }, [], {
      description: 'Lines and columns in the source from 1; the end lies behind the last character'
    }),
    quantity: obj(
      {
        written: text,
        value: num,
        unit: str,
        dimension: { enum: dims },
        current: { enum: ['ac', 'dc'] },
        reference: { enum: ['gauge', 'absolute'] },
        tolerance: { type: 'number', minimum: 0 },
        si: num,
        interval: obj({ low: num, high: num })
      },
      ['current', 'reference'],
      { description: 'A number with its unit and tolerance, as written and in SI base units' }
    ),
    only: list(obj({ axis: id, values: some(id) }), {
      description: 'The generations on which the thing exists; empty: on all'
    }),
    axis: obj({ id, span: ref('span'), ask: str, values: some(obj({ id, name: str, tell: str })) }),
    source: obj(
      {
        id,
        span: ref('span'),
        kind: {
          enum: [
            'electrical',
            'capacitor',
            'battery',
            'magnet',
            'rotating',
            'gravity',
            'spring',
            'gas',
            'liquid',
            'thermal',
            'other'
          ]
        },
        at: ids,
        fedBy: ids,
        unfed: orNull(str),
        rebuilds: bool,
        guarded: orNull(str),
        only: ref('only'),
        store: { enum: ['none', 'can-be-let-out', 'always-held'] },
        electricalWork: bool,
        quantities: { type: 'object', additionalProperties: ref('quantity') },
        phases: orNull(pos),
        conductors: list(text),
        category: orNull({ enum: ['II', 'III', 'IV'] }),
        describe: orNull(str),
        surface: str,
        contact: str
      },
      ['surface', 'contact']
    ),
    point: obj({
      id,
      span: ref('span'),
      is: str,
      where: str,
      safe: str,
      normal: { enum: ['on', 'off'] },
      only: ref('only')
    }),
    restraint: obj({
      id,
      span: ref('span'),
      kind: { enum: ['earth', 'short', 'block', 'pin', 'cover', 'blank', 'chain', 'other'] },
      is: str,
      holds: ids,
      needsPower: orNull(str),
      only: ref('only')
    }),
    role: obj({ id, span: ref('span'), name: str, holds: list(text), electrical: bool }),
    item: obj({
      id,
      span: ref('span'),
      kind: { enum: ['tool', 'part', 'wear'] },
      label: str,
      details: list(str),
      measures: orNull(str),
      rated: orNull(ref('quantity')),
      category: orNull({ enum: ['II', 'III', 'IV'] }),
      range: orNull({ ...obj({ low: ref('quantity'), high: ref('quantity') }) }),
      needsCalibration: bool,
      glove: orNull({ enum: ['00', '0', '1', '2', '3', '4'] })
    }),
    leftOn: obj({ source: id, span: ref('span'), why: str, permits: ids }),
    notice: obj({ id, word: { enum: ['danger', 'warning', 'caution', 'notice'] }, label: str, body: contents }),
    run: {
      oneOf: [
        member(['text', 'strong', 'emphasis', 'code'], { text: str }),
        member('ref', { to: str, text: str }),
        member('break', {})
      ]
    },
    runs: list(ref('run')),
    content: {
      oneOf: [
        member('paragraph', { runs: ref('runs') }),
        member('list', { ordered: bool, start: nat, items: list(contents) }),
        member('table', { header: list(ref('runs')), rows: list(list(ref('runs'))) }),
        member('quote', { content: contents }),
        member('code', { text: str }),
        member('image', { source: str, alternate: str }),
        member('rule', {})
      ]
    },
    limits: obj({ min: orNull(num), max: orNull(num), below: orNull(num) }, [], {
      description: 'min and max included, below excluded'
    }),
    input: {
      oneOf: [
        member('box', {
          id,
          of: { enum: ['item', 'tester-before', 'tester-after', 'trial'] },
          text: str,
          source: orNull(id)
        }),
        member('lock', { id, point: id }),
        member('unlock', { id, point: id }),
        member('reading', { id, label: str, unit: str, limits: ref('limits'), source: orNull(id) }),
        member('wait', {
          id,
          seconds: { type: 'number', minimum: 0 },
          because: { enum: ['written', 'label', 'computed'] },
          source: orNull(id)
        })
      ]
    },
    exit: {
      oneOf: [
        on('answer', { answer: text, label: str, says: contents, to: id }),
        on('identified', { value: id, to: id }),
        on('value', { value: id, says: contents, to: id }),
        on(['done', 'inside', 'again'], { to: id }),
        on('outside', { says: contents, to: id }),
        on('late', { within: id, says: contents, to: id })
      ]
    },
    thing: member(['source', 'point', 'restraint'], { id }),
    about: { oneOf: [member('machine', {}), member(['source', 'point', 'restraint', 'axis'], { id })] },
    condition: {
      oneOf: [
        is(['stopped', 'told', 'tried', 'inspected', 'clear', 'some-point-locked', 'touched-still'], {}),
        is(['isolated', 'cut', 'still', 'dead', 'proven'], { source: id }),
        is(['locked', 'off', 'not-locked', 'unrestrained', 'normal'], { point: id }),
        is(['feeds-locked', 'restraint-off'], { restraint: id }),
        is('known', { axis: id }),
        is('given', { permit: id }),
        is('declared', { holds: bool, fault: str }),
        is(['all', 'any'], { of: list(ref('condition')) })
      ]
    },
    need: obj({
      about: ref('about'),
      present: list(ref('thing')),
      rungs: some(obj({ obligation: text, condition: ref('condition') }))
    }),
    effect: {
      oneOf: [
        does('set', { flag: { enum: ['stopped', 'told', 'tried', 'inspected', 'clear'] }, to: bool }),
        does('move', { point: id, to: { enum: ['on', 'off', 'locked'] } }),
        does('put', { restraint: id, to: { enum: ['on', 'off'] } }),
        does(['let-out', 'verify'], { source: id }),
        does('unverify', { source: id, freedBy: id }),
        does('touch', { sources: ids, handling: orNull(id) }),
        does(['untouch', 'end-permits', 'rewind-unfed'], {}),
        does('permit', { permit: id }),
        does('know', { axis: id })
      ]
    },
    turn: obj({ needs: list(ref('need')), does: list(ref('effect')) }, [], {
      description: 'Needs are looked at first, then all effects take place, then the ledger settles'
    }),
    state: {
      type: 'object',
      properties: {
        id,
        step: id,
        section: orNull(id),
        span: ref('span'),
        title: text,
        intro: contents,
        notices: list(ref('notice')),
        body: contents,
        role: orNull(id),
        wear: ids,
        minutes: orNull(num),
        items: list(obj({ id, span: ref('span') })),
        inputs: list(ref('input')),
        things: list(ref('thing')),
        turns: list(ref('turn')),
        exits: list(ref('exit'))
      },
      required: [
        'id',
        'step',
        'section',
        'span',
        'title',
        'intro',
        'notices',
        'body',
        'role',
        'wear',
        'minutes',
        'items',
        'inputs',
        'things',
        'turns',
        'exits'
      ],
      oneOf: [
        part(['gather', 'notify', 'operate', 'shutdown', 'tryout', 'inspect', 'clear', 'notice', 'finish']),
        part('look', { near: ids }),
        part('live', { near: ids, apart: ids, why: orNull(str), permits: ids }),
        part('identify', { axis: id }),
        part(['isolate', 'lock', 'unlock', 'energize'], { points: ids }),
        part('relieve', { sources: ids, with: ids, wait: orNull(ref('quantity')) }),
        part(['restrain', 'remove'], { restraints: ids }),
        part('lamp', { sources: ids, expect: { enum: ['dark', 'lit'] } }),
        part('prove', { sources: ids, with: ids, known: orNull(str), by: { enum: ['instrument', 'trial'] } }),
        part('signoff', { role: id, meaning: str, permit: id }),
        part('work', { leaves: ids, why: orNull(str), permits: ids, with: ids }),
        part('measure', {
          unit: str,
          from: orNull(str),
          near: ids,
          apart: ids,
          with: ids,
          why: orNull(str),
          permits: ids
        }),
        part('wait', { why: str }),
        part('stop', { reason: str, tell: orNull(str) }),
        part('ask', { question: str }),
        part('branch', { axis: id }),
        part('back', { to: id }),
        part('timer', { seconds: { type: 'number', minimum: 0 } })
      ],
      unevaluatedProperties: false
    }
  }
}
if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const file = new URL('machine.schema.json', import.meta.url)
  writeFileSync(file, `${JSON.stringify(schema, null, 2)}\n`)
}
