import type { Outcome, ProofReport } from '@lockwright/proof'
import type { Catalog } from '../catalog.js'
import type { PrintOptions } from '../print-options.js'
import type { Sheet } from '../sheet/sheet.js'
import { paragraph, say, stress } from '../text/say.js'
import type { Block, Cell } from './block.js'
import { table } from './front-blocks.js'
import type { Names } from './names.js'

/** The last pages: sign-offs, what was checked, and room for deviations and notes. */
export function closingBlocks(sheet: Sheet, options: PrintOptions, names: Names, catalog: Catalog): readonly Block[] {
  const { parts, heads, closing } = catalog
  return [
    { kind: 'heading', level: 2, text: parts.signatures },
    table(
      [
        [heads.step, 7],
        [heads.meaning, 31],
        [heads.name, 18],
        [heads.qualification, 15],
        [heads.signature, 15],
        [heads.date, 14]
      ],
      signatures(sheet, names, catalog),
      true
    ),
    { kind: 'heading', level: 2, text: parts.proof },
    ...proofLines(sheet, options, catalog).map((runs): Block => ({ kind: 'content', content: paragraph(runs) })),
    { kind: 'heading', level: 2, text: parts.deviations },
    { kind: 'content', content: paragraph(say(closing.deviation)) },
    table(
      [
        [heads.step, 9],
        [heads.deviation, 60],
        [heads.qualified, 31]
      ],
      empty(4, 3),
      true
    ),
    { kind: 'heading', level: 2, text: parts.notes },
    table(
      [
        [heads.step, 9],
        [heads.note, 60],
        [`${heads.name}, ${heads.time.toLowerCase()}`, 31]
      ],
      empty(6, 3),
      true
    )
  ]
}

/** A row for each sign-off step, then for the sheet as a whole. */
function signatures({ steps }: Sheet, names: Names, { closing }: Catalog): readonly (readonly Cell[])[] {
  const signed = steps.flatMap(({ state, number }) =>
    state.kind === 'signoff' ? [{ number: String(number), meaning: state.meaning, role: names.role(state.role) }] : []
  )
  const whole = [closing.completed, closing.entered].map((meaning) => ({ number: '', meaning, role: '' }))
  return [...signed, ...whole].map(({ number, meaning, role }) => [
    number === '' ? [] : [say(number)],
    [say(meaning)],
    [],
    role === '' ? [] : [say(role)],
    [],
    []
  ])
}

function empty(rows: number, columns: number): readonly (readonly Cell[])[] {
  return Array.from({ length: rows }, () => Array.from({ length: columns }, (): Cell => []))
}

function proofLines(
  { machine }: Sheet,
  { digest, report }: PrintOptions,
  catalog: Catalog
): readonly (readonly ReturnType<typeof say>[number][])[] {
  const { closing } = catalog
  return [
    say(closing.proof(machine.procedure, machine.revision, digest)),
    ...(report === undefined ? [say(closing.noReport)] : reportLines(report, catalog)),
    say(closing.claim)
  ]
}

function reportLines(
  report: ProofReport,
  { closing }: Catalog
): readonly (readonly ReturnType<typeof say>[number][])[] {
  const told = (label: string, outcome: Outcome) => {
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
