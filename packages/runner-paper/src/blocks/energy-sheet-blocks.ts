import {
  type Calculation,
  type EnergySheet,
  furtherOutcomes,
  inputFigure,
  judgedByRest,
  type Outcome,
  type SheetEntry,
  tellInput,
  tellMagnitude,
  tellOutcome,
  tellWait,
  workLines
} from '@lockwright/energy'
import type { Content } from '@lockwright/language'
import type { Machine } from '@lockwright/machine'
import type { Catalog } from '../catalog.js'
import type { EnergySheetOptions } from '../print-options.js'
import { paragraph, say, sayNamed, stress } from '../text/say.js'
import type { Block, Cell, TableBlock, TitleBlock } from './block.js'
import { judgedEnergy } from './energy-lines.js'
import { shortDigest } from './front-blocks.js'
import { plotBlocks } from './plot-blocks.js'
import { table } from './table.js'

/** The calculation sheet as data: a glance at all sources, then each with everything that went in and came out. */
export function energySheetBlocks(
  machine: Machine,
  sheet: EnergySheet,
  options: EnergySheetOptions,
  catalog: Catalog
): readonly Block[] {
  const { energy } = catalog
  return [
    titleBlock(machine, options, catalog),
    { kind: 'panel', heading: catalog.parts.cautions, lines: energy.cautions.map(say) },
    ...panel(energy.remarks, remarksOf(sheet, catalog)),
    { kind: 'heading', level: 2, text: energy.overview },
    overview(sheet, catalog),
    ...sheet.entries.flatMap((entry) => entryBlocks(entry, machine, catalog))
  ]
}

function titleBlock(machine: Machine, { digest, now }: EnergySheetOptions, catalog: Catalog): TitleBlock {
  const { facts, energy } = catalog
  const rows: readonly (readonly [string, string])[] = [
    [facts.equipment, `${machine.equipment.tag}, ${machine.equipment.name}`],
    [facts.place, machine.equipment.place],
    [facts.procedure, machine.procedure],
    [facts.revision, String(machine.revision)],
    [facts.digest, `${shortDigest(digest)} (${digest.match(/.{1,16}/g)?.join(' ') ?? digest})`]
  ]
  return {
    kind: 'title',
    kicker: now === undefined ? energy.sheet : `${energy.sheet}. ${catalog.printed(catalog.moment(now))}`,
    title: machine.title,
    facts: rows.map(([label, value]) => ({ label, value })),
    code: `LOCKWRIGHT/1 ${machine.procedure} r${machine.revision} sha256:${digest}`,
    codeAlternate: `QR: ${facts.procedure} ${machine.procedure}, ${facts.revision} ${machine.revision}, ${facts.digest} ${digest}`
  }
}

/** Every what-if that was put in place, and what has to be said of the others. */
function remarksOf({ entries, remarks }: EnergySheet, { energy }: Catalog): readonly string[] {
  const taken = entries.flatMap(({ id, parameters }) =>
    parameters.flatMap(({ name, text, insteadOf }) =>
      insteadOf === undefined ? [] : [`${id}, ${name}: ${text} (${energy.whatIf(insteadOf)})`]
    )
  )
  return [...taken, ...remarks]
}

function panel(heading: string, sentences: readonly string[]): readonly Block[] {
  return sentences.length === 0 ? [] : [{ kind: 'panel', heading, lines: sentences.map(sayNamed) }]
}

function overview({ entries }: EnergySheet, { energy }: Catalog): Block {
  const { heads } = energy
  return table(
    [
      [heads.source, 18],
      [heads.most, 24],
      [heads.felt, 30],
      [heads.wait, 28]
    ],
    entries.map((entry): readonly Cell[] => {
      const judged = judgedEnergy(entry)
      const most =
        judged === undefined ? tellOutcome(entry.energy) : tellOutcome({ kind: 'computed', calculation: judged })
      return [
        [stress(entry.id)],
        [say(`${most}${judgedByRest(entry) ? energy.of.rest : ''}`)],
        entry.magnitude === undefined || entry.felt === undefined
          ? []
          : [say(entry.felt), say(tellMagnitude(entry.magnitude))],
        [say(tellWait(entry.wait) ?? energy.nothingToWait)]
      ]
    })
  )
}

function entryBlocks(entry: SheetEntry, { sources }: Machine, catalog: Catalog): readonly Block[] {
  const { energy, sourceKinds } = catalog
  const describe = sources.find(({ id }) => id === entry.id)?.describe
  const outcomes = [entry.energy, entry.time, ...furtherOutcomes(entry)]
  const plots = plotBlocks(entry, { width: 480, height: 220 }, catalog)
  return [
    { kind: 'heading', level: 2, text: `${entry.id}: ${describe ?? sourceKinds[entry.kind]}` },
    parameterBlock(entry, catalog),
    ...panel(energy.mind, entry.findings),
    ...panel(energy.couldBeAdded, entry.advice),
    ...(plots.length === 0 ? [] : [{ kind: 'plots', across: 1, plots } as const]),
    ...outcomes.flatMap((outcome) => outcomeBlocks(outcome, catalog))
  ]
}

function parameterBlock({ parameters }: SheetEntry, { energy }: Catalog): Block {
  if (parameters.length === 0) return { kind: 'content', content: paragraph(say(energy.noParameters)) }
  return table(
    [
      [energy.heads.parameter, 25],
      [energy.heads.value, 75]
    ],
    parameters.map(({ name, text, insteadOf }): readonly Cell[] => [
      [stress(name)],
      [[...say(text), ...(insteadOf === undefined ? [] : stress(`  ${energy.whatIf(insteadOf)}`))]]
    ])
  )
}

function outcomeBlocks(outcome: Outcome, catalog: Catalog): readonly Block[] {
  if (outcome.kind !== 'computed') {
    return [
      {
        kind: 'content',
        content: paragraph([...stress(`${outcome.title}: `), ...say(tellOutcome(outcome))])
      }
    ]
  }
  const { calculation } = outcome
  return [
    { kind: 'heading', level: 3, text: `${calculation.title}: ${tellOutcome(outcome)}` },
    { ...inputTable(calculation, catalog), keepNext: true },
    { kind: 'content', content: workContent(calculation, catalog) }
  ]
}

function inputTable({ inputs }: Calculation, { energy }: Catalog): TableBlock {
  const { heads } = energy
  return table(
    [
      [heads.symbol, 14],
      [heads.input, 35],
      [heads.used, 17],
      [heads.low, 17],
      [heads.high, 17]
    ],
    inputs.map((input): readonly Cell[] => {
      const { low, high } = input.interval
      const ends = low === high ? [[], []] : [[say(inputFigure(low, input))], [say(inputFigure(high, input))]]
      return [[stress(input.symbol)], [say(tellInput(input))], [stress(inputFigure(input.used, input))], ...ends]
    })
  )
}

/** Formula, figures put in, result, where the formula stands, and what limits it. */
function workContent(
  { steps, formula, substitution, source, notes }: Calculation,
  { energy }: Catalog
): readonly Content[] {
  const work = [...steps, { formula, substitution }].flatMap(workLines)
  return [
    ...work.flatMap((line, index) => paragraph(index === work.length - 1 ? stress(line) : say(line))),
    ...paragraph(say(energy.source(source))),
    ...notes.flatMap((note) => paragraph(say(energy.note(note))))
  ]
}
