import type { SheetEntry } from '@lockwright/energy'
import type { Catalog } from '../catalog.js'
import { tableFields } from '../form/table-fields.js'
import type { PrintOptions } from '../print-options.js'
import { isGate } from '../sheet/gates.js'
import type { Sheet } from '../sheet/sheet.js'
import { say, sayNamed, stress } from '../text/say.js'
import type { Block, Cell, TitleBlock } from './block.js'
import { energiesOf } from './energy-lines.js'
import { gatherBlocks, peopleBlocks } from './gather-blocks.js'
import type { Names } from './names.js'
import { plotBlocks } from './plot-blocks.js'
import { sourceRow } from './source-rows.js'
import { table } from './table.js'

/** The first page: everything at a glance before the first step. */
export function frontBlocks(sheet: Sheet, options: PrintOptions, names: Names, catalog: Catalog): readonly Block[] {
  const { machine } = sheet
  const { parts, heads } = catalog
  const energies = energiesOf(machine, catalog)
  const sources = machine.sources.filter(({ id }) => names.present({ kind: 'source', id }))
  return [
    titleBlock(sheet, options, catalog),
    beganBlock(catalog),
    { kind: 'panel', heading: parts.cautions, lines: catalog.cautions.map(say) },
    { kind: 'heading', level: 2, text: parts.sources },
    table(
      [
        [heads.source, 31],
        [heads.isolate, 26],
        [heads.release, 24],
        [heads.verify, 19]
      ],
      sources.map((source) => sourceRow(sheet, source, energies.get(source.id), names, catalog))
    ),
    ...energyBlocks(
      sources.flatMap(({ id }) => energies.get(id) ?? []),
      catalog
    ),
    ...leftOnBlocks(sheet, names, catalog),
    ...pointBlocks(sheet, names, catalog),
    ...restraintBlocks(sheet, names, catalog),
    ...gatherBlocks(sheet, catalog),
    ...peopleBlocks(sheet, catalog),
    ...waiverBlocks(sheet, catalog),
    { kind: 'heading', level: 2, text: parts.legend },
    legendBlock(sheet, catalog)
  ]
}

function titleBlock({ machine, chosen }: Sheet, options: PrintOptions, catalog: Catalog): TitleBlock {
  const { facts, orders } = catalog
  const generation = chosen.map(({ value }) => value.name).join(', ')
  const issue =
    options.issue.kind === 'draft'
      ? `${catalog.draft}, ${catalog.notIssued}`
      : catalog.issued(options.issue.by, catalog.moment(options.issue.at))
  const rows: readonly (readonly [string, string])[] = [
    [facts.equipment, `${machine.equipment.tag}, ${machine.equipment.name}`],
    [facts.place, machine.equipment.place],
    [facts.scope, machine.scope],
    [facts.generation, generation === '' ? '' : catalog.forGeneration(generation)],
    [facts.procedure, machine.procedure],
    [facts.revision, String(machine.revision)],
    [facts.issue, issue],
    [catalog.form.serial, options.serial ?? catalog.form.noSerial],
    [catalog.form.clock, options.zone === undefined ? '' : `UTC${options.zone}`],
    [facts.order, orders[machine.order]],
    [facts.noStartControl, machine.noStartControl ?? ''],
    [facts.names, facts.namesTell],
    [facts.digest, `${shortDigest(options.digest)} (${grouped(options.digest)})`],
    ...siteFields(options)
  ]
  return {
    kind: 'title',
    kicker:
      options.now === undefined ? catalog.sheet : `${catalog.sheet}. ${catalog.printed(catalog.moment(options.now))}`,
    title: generation === '' ? machine.title : `${machine.title}, ${catalog.forGeneration(generation)}`,
    facts: rows.filter(([, value]) => value !== '').map(([label, value]) => ({ label, value })),
    code: `LOCKWRIGHT/1 ${machine.procedure} r${machine.revision} sha256:${options.digest}${options.serial === undefined ? '' : ` sheet:${options.serial}`}`,
    codeAlternate: `QR: ${facts.procedure} ${machine.procedure}, ${facts.revision} ${machine.revision}, ${facts.digest} ${options.digest}, ${catalog.form.serial} ${options.serial ?? catalog.form.noSerial}`
  }
}

/** The day to which the times on the sheet belong. */
function beganBlock({ form, sheet }: Catalog): Block {
  const date = { key: 'date', kind: 'date', head: form.began } as const
  return table([[form.began, 100]], [[[]]], true, tableFields('#sheet', [date], [{ key: 'began', tip: sheet }]))
}

/** Rows of a site's template; an empty one is a line to write on. */
function siteFields({ templates }: PrintOptions): readonly (readonly [string, string])[] {
  return (templates?.fields ?? []).map(({ label, value }) => [label, value === '' ? '_'.repeat(32) : value] as const)
}

/** The first twelve digits, enough to tell two revisions apart by eye. */
export function shortDigest(digest: string): string {
  return digest.slice(0, 12)
}

/** In groups of sixteen, so that it can be compared by eye. */
function grouped(digest: string): string {
  return digest.match(/.{1,16}/g)?.join(' ') ?? digest
}

/** Small curves of what falls by itself, and what has to be known of the energies. */
function energyBlocks(entries: readonly SheetEntry[], catalog: Catalog): readonly Block[] {
  const plots = entries.flatMap((entry) => plotBlocks(entry, { width: 420, height: 165 }, catalog))
  const found = entries.flatMap(({ id, findings }) => findings.map((finding) => ({ id, finding })))
  return [
    ...(plots.length === 0
      ? []
      : [
          { kind: 'heading', level: 3, text: catalog.energy.falls } as const,
          { kind: 'plots', across: 2, plots } as const
        ]),
    ...(found.length === 0
      ? []
      : [
          {
            kind: 'panel',
            heading: catalog.energy.mind,
            lines: found.map(({ id, finding }) => [...stress(id), ...sayNamed(`: ${finding}`)])
          } as const
        ])
  ]
}

function leftOnBlocks({ machine }: Sheet, names: Names, { parts, heads }: Catalog): readonly Block[] {
  const left = machine.leftOn.filter(({ source }) => names.sources([source]) !== '')
  if (left.length === 0) return []
  return [
    { kind: 'heading', level: 2, text: parts.leftOn },
    table(
      [
        [heads.source, 25],
        [heads.why, 50],
        [heads.permit, 25]
      ],
      left.map(({ source, why, permits }) => [
        [stress(names.sources([source]))],
        [say(why)],
        [say(names.permits(permits))]
      ])
    )
  ]
}

function pointBlocks({ machine }: Sheet, names: Names, { parts, heads, tells }: Catalog): readonly Block[] {
  const points = machine.points.filter(({ id }) => names.present({ kind: 'point', id }))
  if (points.length === 0) return []
  return [
    { kind: 'heading', level: 2, text: parts.points },
    table(
      [
        [heads.point, 27],
        [heads.where, 20],
        [heads.safe, 18],
        [heads.lock, 15],
        [heads.name, 20]
      ],
      points.map((point) => [
        [[...stress(point.id), ...say(` ${point.is}${names.suffix(point.only)}`)]],
        [say(point.where)],
        [say(point.safe), ...(point.normal === 'off' ? [say(tells.normalOff)] : [])],
        [],
        []
      ]),
      true,
      tableFields(
        '#devices',
        [
          null,
          null,
          null,
          { key: 'lock', kind: 'lock', head: heads.lock },
          { key: 'name', kind: 'name', head: heads.name }
        ],
        points.map(({ id }) => ({ key: id, tip: `${parts.points}, ${id}` }))
      )
    )
  ]
}

function restraintBlocks(sheet: Sheet, names: Names, catalog: Catalog): readonly Block[] {
  const { parts, heads, tells, restraintKinds } = catalog
  const restraints = sheet.machine.restraints.filter(({ id }) => names.present({ kind: 'restraint', id }))
  if (restraints.length === 0) return []
  const steps = (id: string, kind: 'restrain' | 'remove'): Cell => {
    const at = sheet.steps.filter(({ state }) => state.kind === kind && state.restraints.some((each) => each === id))
    return [say(at.length === 0 ? catalog.none : names.steps(at.map(({ number }) => number)))]
  }
  return [
    { kind: 'heading', level: 2, text: parts.restraints },
    table(
      [
        [heads.restraint, 44],
        [heads.holds, 26],
        [heads.on, 15],
        [heads.off, 15]
      ],
      restraints.map((restraint) => [
        [
          [
            ...stress(restraint.id),
            ...say(` ${restraint.is}${names.suffix(restraint.only)} (${restraintKinds[restraint.kind]})`)
          ],
          ...(restraint.needsPower === null ? [] : [say(tells.needsPower(restraint.needsPower))])
        ],
        [say(names.sources(restraint.holds))],
        steps(restraint.id, 'restrain'),
        steps(restraint.id, 'remove')
      ])
    )
  ]
}

function waiverBlocks({ machine }: Sheet, { parts, heads }: Catalog): readonly Block[] {
  if (machine.waivers.length === 0) return []
  return [
    { kind: 'heading', level: 2, text: parts.waivers },
    table(
      [
        [heads.obligation, 25],
        [heads.why, 50],
        [heads.by, 25]
      ],
      machine.waivers.map(({ obligation, why, by }) => [[stress(obligation)], [say(why)], [say(by)]])
    )
  ]
}

/** Only the shapes that this sheet uses. */
function legendBlock({ steps }: Sheet, { legend }: Catalog): Block {
  const some = (test: (step: Sheet['steps'][number]) => boolean): boolean => steps.some(test)
  const entries = [
    { shape: 'gate' as const, text: legend.gate, used: some(({ state }) => isGate(state.kind)) },
    { shape: 'step' as const, text: legend.step, used: some(({ gate }) => !gate) },
    { shape: 'box' as const, text: legend.box, used: true },
    { shape: 'circle' as const, text: legend.circle, used: some(({ ways }) => ways.length > 1) },
    { shape: 'rail' as const, text: legend.rail, used: some(({ rails }) => rails.length > 0) },
    { shape: 'way' as const, text: legend.way, used: true }
  ]
  return { kind: 'legend', entries: entries.filter(({ used }) => used).map(({ shape, text }) => ({ shape, text })) }
}
