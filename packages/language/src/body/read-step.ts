import type { List, RootContent } from 'mdast'
import type { Content } from '../content.js'
import { quoted } from '../faults.js'
import type { ItemId, PointId, RestraintId, RoleId, SourceId, StepId } from '../ids.js'
import type { Place } from '../place.js'
import type { Branch, Notice, Step, StepBase, StepKind } from '../procedure.js'
import type { BodyContext } from './context.js'
import type { DirectiveUse } from './directive-use.js'
import { type ContentReading, readContents, readLine } from './read-content.js'
import { given } from './read-item.js'

/** What stands before a step or a choice and belongs to it. */
export interface Before {
  readonly intro: readonly Content[]
  readonly notices: readonly Notice[]
  /** Items that the notices refer to. */
  readonly items: ContentReading['items']
}

/** Reads a step directive. `outside` is the branch that a measure holds, read by the caller with the other branches. */
export function readStep(
  use: DirectiveUse,
  prose: readonly RootContent[],
  outside: Branch | undefined,
  before: Before,
  id: StepId,
  context: BodyContext
): Step {
  const { attributes } = use
  const reading = readContents(prose, 'allowed', context)
  const labelItems: ContentReading = { content: [], items: [] }
  const label = readLine(use.label, context, labelItems)
  const role = attributes.ids<RoleId>('role')[0]
  const minutes = attributes.number('minutes', 0)
  const base: { -readonly [Key in keyof StepBase]: StepBase[Key] } = {
    id: (use.id?.text as StepId | undefined) ?? id,
    named: use.id !== undefined,
    section: context.section,
    place: use.place,
    whole: use.whole,
    intro: before.intro,
    notices: before.notices,
    body: reading.content,
    wear: attributes.ids<ItemId>('wear'),
    items: [...before.items, ...labelItems.items, ...attributes.items(['with', 'wear', 'part']), ...reading.items]
  }
  if (role !== undefined) base.role = role
  if (minutes !== undefined) base.minutes = minutes
  // A label where the step has no place for one is its first line.
  const unlabelled: StepBase =
    label.length === 0 ? base : { ...base, body: [{ kind: 'paragraph', runs: label }, ...base.body] }
  const points = (): readonly PointId[] => attributes.ids<PointId>('at')
  const sources = (name: string): readonly SourceId[] => attributes.ids<SourceId>(name)
  const permitted = () => ({ ...given('why', attributes.text('why')), permits: attributes.ids<StepId>('permit') })
  const kind = use.name as StepKind
  switch (kind) {
    case 'notify':
    case 'operate':
    case 'shutdown':
    case 'tryout':
    case 'inspect':
    case 'clear':
      return { ...base, kind, label }
    case 'look':
      return { ...base, kind, label, near: sources('near') }
    case 'live':
      return { ...base, kind, label, near: sources('near'), apart: sources('apart'), ...permitted() }
    case 'identify':
      return { ...unlabelled, kind, axis: attributes.axis('hardware')?.id ?? ('' as never) }
    case 'isolate':
      checkOrder(use, context)
      return { ...unlabelled, kind, at: points() }
    case 'lock':
    case 'unlock':
    case 'energize':
      return { ...unlabelled, kind, at: points() }
    case 'relieve':
      return {
        ...unlabelled,
        kind,
        of: relievable(use, context),
        ...given('wait', attributes.time('wait')),
        with: attributes.ids<ItemId>('with')
      }
    case 'restrain':
      return { ...unlabelled, kind, restraints: attributes.ids<RestraintId>('with') }
    case 'remove':
      return { ...unlabelled, kind, restraints: attributes.ids<RestraintId>('restraint') }
    case 'lamp':
      return { ...unlabelled, kind, of: sources('of'), expect: attributes.word<'dark' | 'lit'>('expect') ?? 'dark' }
    case 'prove':
      checkProof(use, context)
      return {
        ...unlabelled,
        kind,
        of: sources('of'),
        with: attributes.ids<ItemId>('with'),
        ...given('known', attributes.text('known')),
        by: attributes.word<'instrument' | 'trial'>('by') ?? 'instrument'
      }
    case 'signoff':
      return { ...base, kind, label, role: role ?? ('' as RoleId) }
    case 'work':
      return { ...unlabelled, kind, leaves: sources('leaves'), ...permitted(), with: attributes.ids<ItemId>('with') }
    case 'measure':
      checkMeasure(use, context)
      return {
        ...base,
        kind,
        label,
        unit: attributes.text('unit') ?? '',
        ...given('min', attributes.number('min')),
        ...given('max', attributes.number('max')),
        ...given('from', attributes.text('from')),
        near: sources('near'),
        apart: sources('apart'),
        with: attributes.ids<ItemId>('with'),
        ...permitted(),
        ...given('outside', outside)
      }
    case 'wait':
      return { ...base, kind, label, seconds: attributes.time('for')?.si ?? 0 }
    case 'stop':
      return { ...base, kind, label, ...given('tell', attributes.text('tell')) }
    case 'finish':
      return { ...base, kind }
  }
}

/** A numbered list outside every step: hands-on work on a dead machine. */
export function readWorkList(list: List, before: Before, id: StepId, context: BodyContext): Step {
  const whole = context.place(list.position)
  const reading = readContents([list], 'allowed', context)
  return {
    kind: 'work',
    id,
    named: false,
    section: context.section,
    place: firstLine(whole, context),
    whole,
    intro: before.intro,
    notices: before.notices,
    body: reading.content,
    wear: [],
    items: [...before.items, ...reading.items],
    leaves: [],
    permits: [],
    with: []
  }
}

function firstLine(whole: Place, { source }: BodyContext): Place {
  const { start } = whole
  return whole.end.line === start.line
    ? whole
    : { ...whole, end: source.pointAt(start.line, source.line(start.line).trimEnd().length + 1) }
}

function checkOrder(use: DirectiveUse, { head, faults, names }: BodyContext): void {
  if (head.order === 'electrical' || names.incomplete) return
  faults.add(
    'isolate-in-general-order',
    use.namePlace,
    `${quoted('isolate')} belongs to the electrical order, and this procedure is in the general one.`,
    'Write `lock` here, or `order: electrical` in the front matter where that law applies.'
  )
}

function relievable(use: DirectiveUse, { head, faults }: BodyContext): readonly SourceId[] {
  const named = use.attributes.names('of')
  for (const { name } of named) {
    const source = head.sources.find(({ id }) => id === name)
    if (source === undefined || source.relievable) continue
    const mend =
      source.kind === 'battery'
        ? 'Cover it with a restraint, or treat the work as live.'
        : source.kind === 'electrical'
          ? 'Lock what feeds it; it stores nothing.'
          : 'Restrain it, or declare `relievable: true` if it can be let out.'
    faults.add(
      'not-relievable',
      use.attributes.place('of') ?? use.place,
      `The source ${quoted(name)} (${source.kind}) cannot be relieved.`,
      mend,
      [{ place: source.place, note: `Here ${quoted(name)} is declared.` }]
    )
  }
  return named.map(({ name }) => name as SourceId)
}

function checkProof(use: DirectiveUse, { faults }: BodyContext): void {
  const { attributes } = use
  const trial = attributes.text('by') === 'trial'
  const place = attributes.place('by')
  if (trial && attributes.has('with') && place !== undefined) {
    faults.add(
      'contradicting-attributes',
      place,
      `A proof ${quoted('by=trial')} uses no instrument, and here ${quoted('with')} names one.`,
      'Take one of the two out.'
    )
  } else if (!trial && !attributes.has('with')) {
    faults.add(
      'missing-attribute',
      use.namePlace,
      `${quoted('prove')} does not say what it is proved with.`,
      'Name the instrument with `with=...`, or write `by=trial`.'
    )
  }
}

function checkMeasure(use: DirectiveUse, { faults }: BodyContext): void {
  const { attributes } = use
  const from = attributes.has('from')
  const near = attributes.has('near')
  if (from && near) {
    faults.add(
      'contradicting-attributes',
      attributes.place('near') ?? use.place,
      'A reading is taken either `from` a place without hands or by hand `near` sources.',
      'Take one of the two out.'
    )
  } else if (!from && !near) {
    faults.add(
      'missing-attribute',
      use.namePlace,
      `${quoted('measure')} does not say where the reading is taken.`,
      'Write `from=...` for a panel or a fixed gauge, or `near=...` for the sources that it is taken near.'
    )
  }
  const byHand = attributes.place('with')
  if (byHand !== undefined && !near) {
    faults.add(
      'contradicting-attributes',
      byHand,
      `${quoted('with')} goes with ${quoted('near')}: an instrument is held by hand.`,
      'Take it out, or write `near=...`.'
    )
  }
  const low = attributes.number('min')
  const high = attributes.number('max')
  if (low !== undefined && high !== undefined && low > high) {
    faults.add(
      'contradicting-attributes',
      attributes.place('max') ?? use.place,
      `The highest value, ${high}, is below the lowest, ${low}.`,
      'Correct one of the two.'
    )
  }
}
