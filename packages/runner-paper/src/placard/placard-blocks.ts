import type { SourceId } from '@lockwright/language'
import type { StateKind } from '@lockwright/machine'
import type { Block, Cell, TitleBlock } from '../blocks/block.js'
import { energiesOf } from '../blocks/energy-lines.js'
import { shortDigest } from '../blocks/front-blocks.js'
import { type Names, namesOf } from '../blocks/names.js'
import { table } from '../blocks/table.js'
import type { Catalog } from '../catalog.js'
import type { Sheet, SheetStep } from '../sheet/sheet.js'
import { say, stress } from '../text/say.js'
import type { HangingOptions } from './hanging-options.js'
import { placardSourceRow } from './placard-source-row.js'

/** What can be left out where a page is too small, in the order in which it goes. A source, a device or a caution never is. */
export const droppable = ['scope', 'order', 'magnitudes'] as const

export type Droppable = (typeof droppable)[number]

/** The placard as data: the equipment at a glance, what to cut off, let out and verify, in which order, and who to call. */
export function placardBlocks(
  sheet: Sheet,
  options: HangingOptions,
  catalog: Catalog,
  left: readonly Droppable[]
): readonly Block[] {
  const { machine } = sheet
  const { parts, heads, hanging } = catalog
  const { placard } = hanging
  const names = namesOf(sheet, catalog)
  const energies = left.includes('magnitudes') ? undefined : energiesOf(machine, catalog)
  const sources = machine.sources.filter(({ id }) => names.present({ kind: 'source', id }))
  return [
    titleBlock(sheet, options, catalog, left),
    {
      kind: 'panel',
      heading: parts.cautions,
      lines: [...placard.cautions, placard.notInstead, ...leftOut(left, catalog)].map(say)
    },
    { kind: 'heading', level: 2, text: placard.sources },
    table(
      [
        [heads.source, 33],
        [placard.isolateAt, 22],
        [heads.release, 25],
        [heads.verify, 20]
      ],
      sources.map((source) =>
        placardSourceRow(briefed(sheet, source.id), source, energies?.get(source.id), names, catalog)
      )
    ),
    ...pointBlocks(sheet, names, catalog),
    ...restraintBlocks(sheet, names, catalog),
    ...(left.includes('order') ? [] : orderBlocks(sheet, names, catalog)),
    { kind: 'heading', level: 2, text: placard.call },
    table(
      [
        [placard.callName, 38],
        [placard.callNumber, 27],
        [placard.review, 35]
      ],
      [
        [[], [], []],
        [[], [], []]
      ],
      true
    )
  ]
}

function leftOut(left: readonly Droppable[], { hanging }: Catalog): readonly string[] {
  const { leftOut, parts } = hanging.placard
  return left.length === 0 ? [] : [leftOut(left.map((part) => parts[part]).join(', '))]
}

function titleBlock(
  { machine, chosen }: Sheet,
  options: HangingOptions,
  catalog: Catalog,
  left: readonly Droppable[]
): TitleBlock {
  const { facts, orders, hanging } = catalog
  const { issue, digest, now } = options
  const generation = chosen.map(({ value }) => value.name).join(', ')
  const state =
    issue.kind === 'draft'
      ? `${catalog.draft}, ${catalog.notIssued}`
      : catalog.issued(issue.by, catalog.moment(issue.at))
  const rows: readonly (readonly [string, string])[] = [
    [facts.place, machine.equipment.place],
    [facts.procedure, `${machine.procedure}: ${machine.title}`],
    [facts.scope, left.includes('scope') ? '' : machine.scope],
    [facts.generation, generation === '' ? '' : catalog.forGeneration(generation)],
    [facts.revision, String(machine.revision)],
    [facts.issue, state],
    [facts.order, orders[machine.order]],
    [facts.digest, shortDigest(digest)]
  ]
  const { placard } = hanging
  return {
    kind: 'title',
    kicker: now === undefined ? placard.kicker : `${placard.kicker}. ${catalog.printed(catalog.moment(now))}`,
    title: `${machine.equipment.tag}  ${machine.equipment.name}`,
    facts: rows.filter(([, value]) => value !== '').map(([label, value]) => ({ label, value })),
    code: `LOCKWRIGHT/1 ${machine.procedure} r${machine.revision} sha256:${digest}`,
    codeAlternate: `QR: ${facts.procedure} ${machine.procedure}, ${facts.revision} ${machine.revision}, ${facts.digest} ${digest}`
  }
}

function pointBlocks({ machine }: Sheet, names: Names, { parts, heads, tells }: Catalog): readonly Block[] {
  const points = machine.points.filter(({ id }) => names.present({ kind: 'point', id }))
  if (points.length === 0) return []
  return [
    { kind: 'heading', level: 2, text: parts.points },
    table(
      [
        [heads.point, 40],
        [heads.where, 32],
        [heads.safe, 28]
      ],
      points.map((point): readonly Cell[] => [
        [[...stress(point.id), ...say(` ${point.is}${names.suffix(point.only)}`)]],
        [say(point.where)],
        [stress(point.safe), ...(point.normal === 'off' ? [say(tells.normalOff)] : [])]
      ])
    )
  ]
}

function restraintBlocks(
  { machine }: Sheet,
  names: Names,
  { parts, heads, restraintKinds, tells }: Catalog
): readonly Block[] {
  const restraints = machine.restraints.filter(({ id }) => names.present({ kind: 'restraint', id }))
  if (restraints.length === 0) return []
  return [
    { kind: 'heading', level: 2, text: parts.restraints },
    table(
      [
        [heads.restraint, 60],
        [heads.holds, 40]
      ],
      restraints.map((restraint): readonly Cell[] => [
        [
          [
            ...stress(restraint.id),
            ...say(` ${restraint.is}${names.suffix(restraint.only)} (${restraintKinds[restraint.kind]})`)
          ],
          ...(restraint.needsPower === null ? [] : [say(tells.needsPower(restraint.needsPower))])
        ],
        [say(names.sources(restraint.holds))]
      ])
    )
  ]
}

/** What makes the machine safe to work on; the first pass alone, for a second lockout is the same again. */
const ordered: ReadonlySet<StateKind> = new Set([
  'notify',
  'shutdown',
  'isolate',
  'lock',
  'relieve',
  'restrain',
  'tryout',
  'prove'
])

function orderBlocks(sheet: Sheet, names: Names, { hanging, heads }: Catalog): readonly Block[] {
  const told = firstPass(sheet).filter(({ state }) => ordered.has(state.kind))
  const line = ({ number, state, rails }: SheetStep): Cell => {
    const rail = names.rail(rails)
    return [[...stress(`${number}  `), ...say(`${state.title}${rail === '' ? '' : ` (${rail})`}`)]]
  }
  const half = Math.ceil(told.length / 2)
  const rows = Array.from({ length: half }, (_, index): readonly Cell[] =>
    [told[index], told[index + half]].map((step) => (step === undefined ? [say('')] : line(step)))
  )
  if (rows.length === 0) return []
  return [
    { kind: 'heading', level: 2, text: hanging.placard.order },
    table(
      [
        [heads.step, 50],
        [heads.step, 50]
      ],
      rows
    )
  ]
}

/** A second lockout only repeats the first: its steps are left off where the first already deals with the source. */
function briefed(sheet: Sheet, source: SourceId): Sheet {
  const first = firstPass(sheet)
  const deals = (kind: 'prove' | 'relieve', steps: Sheet['steps']): boolean =>
    steps.some(({ state }) => state.kind === kind && state.sources.includes(source))
  const kinds = ['prove', 'relieve'] as const
  const whole = kinds.every((kind) => deals(kind, first) || !deals(kind, sheet.steps))
  return whole ? { ...sheet, steps: first } : sheet
}

/** From the beginning to the last proof before hands-on work begins. */
function firstPass({ steps }: Sheet): Sheet['steps'] {
  const proven = steps.findIndex(({ state }) => state.kind === 'prove')
  return steps.slice(0, lastOfRun(steps, proven) + 1)
}

/** The last of the proofs and restraints that follow the first proof before work begins. */
function lastOfRun(steps: readonly SheetStep[], from: number): number {
  let last = from
  for (let at = from; at >= 0 && at < steps.length; at += 1) {
    const kind = steps[at]?.state.kind
    if (kind === 'prove' || kind === 'restrain') last = at
    if (kind === 'work') break
  }
  return last
}
