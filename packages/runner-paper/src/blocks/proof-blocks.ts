import type { Runs } from '@lockwright/language'
import type { Outcome, ProofReport } from '@lockwright/proof'
import type { Catalog } from '../catalog.js'
import type { PrintOptions } from '../print-options.js'
import type { Sheet } from '../sheet/sheet.js'
import { paragraph, say, stress, unbroken } from '../text/say.js'
import type { Block, Cell } from './block.js'
import { type Energies, energiesOf, joulesText, judgedEnergy } from './energy-lines.js'
import type { Names } from './names.js'
import { table } from './table.js'

/** What was checked: the obligations, how much was explored, what was waived, what was computed, and the cautions. */
export function proofBlocks(sheet: Sheet, options: PrintOptions, names: Names, catalog: Catalog): readonly Block[] {
  const { parts, closing } = catalog
  const { machine } = sheet
  const { digest, report } = options
  const lines: readonly Runs[] = [
    say(closing.proof(machine.procedure, machine.revision, digest)),
    ...(report === undefined ? [say(closing.noReport)] : reportLines(report, catalog)),
    ...machine.waivers.map(({ obligation, why, by }): Runs => [...stress(obligation), ...say(`: ${why} (${by})`)])
  ]
  return [
    { kind: 'heading', level: 2, text: parts.proof, newPage: true },
    ...lines.map((runs): Block => ({ kind: 'content', content: paragraph(runs) })),
    ...computedBlocks(sheet, energiesOf(machine, catalog), names, catalog),
    { kind: 'panel', heading: parts.cautions, lines: [say(closing.claim), ...catalog.cautions.map(say)] }
  ]
}

function reportLines(report: ProofReport, { closing }: Catalog): readonly Runs[] {
  const told = (label: string, outcome: Outcome): readonly Runs[] => {
    const ids = report.obligations.filter((each) => each.outcome === outcome).map(({ id }) => id)
    return ids.length === 0 ? [] : [[...stress(`${label}: `), ...say(`${ids.join(', ')}.`)]]
  }
  return [
    ...told(closing.proven, 'holds'),
    ...told(closing.waived, 'waived'),
    ...told(closing.notArising, 'does-not-arise'),
    say(closing.sizes(report.states, report.configurations))
  ]
}

/** What the tool reckoned and the sheet asks for, apart from what the author wrote. */
function computedBlocks({ machine }: Sheet, energies: Energies, names: Names, catalog: Catalog): readonly Block[] {
  const { heads, energy, form } = catalog
  const rows = machine.sources
    .filter(({ id }) => names.present({ kind: 'source', id }))
    .flatMap(({ id }): readonly (readonly Cell[])[] => {
      const entry = energies.get(id)
      const judged = entry === undefined ? undefined : judgedEnergy(entry)
      if (entry === undefined || (judged === undefined && entry.wait.because === 'none')) return []
      const grounds = (['computed', 'label', 'written'] as const).flatMap((ground) => {
        const seconds = entry.wait.grounds[ground]
        return seconds === undefined ? [] : [energy.ground[ground](seconds)]
      })
      return [
        [
          [stress(id)],
          [say(judged === undefined ? energy.unknown : catalog.written(joulesText(judged.worst)))],
          [say(entry.curve === undefined ? '' : unbroken(`${catalog.number(entry.curve.safe)} ${entry.curve.unit}`))],
          [say(grounds.join(', '))]
        ]
      ]
    })
  if (rows.length === 0) return []
  return [
    { kind: 'heading', level: 3, text: form.computed },
    table(
      [
        [heads.source, 20],
        [energy.heads.most, 25],
        [form.safeLevel, 20],
        [form.waits, 35]
      ],
      rows
    )
  ]
}
