import type { ProvedMachine } from '@lockwright/proof'
import { layOut } from './blocks/lay-out.js'
import { english } from './catalog.js'
import { drawDocument } from './draw/draw-document.js'
import { pageTexts } from './draw/page-texts.js'
import type { PrintOptions } from './print-options.js'
import { buildSheet } from './sheet/build-sheet.js'

/**
 * The printed checklist of a proved machine as a PDF: machine, sheet, blocks, strips, pages, file. The same
 * machine and options give the same bytes. `options.for` is taken as checked (`chooseGenerations` does).
 */
export async function printProcedure(machine: ProvedMachine, options: PrintOptions): Promise<Uint8Array> {
  const catalog = english
  const sheet = buildSheet(machine, options.for)
  const generation = sheet.chosen.map(({ value }) => value.name).join(', ')
  const texts = await pageTexts(machine, generation, options, catalog)
  const { issue, now, digest, paper } = options
  return drawDocument(
    layOut(sheet, options, catalog),
    texts,
    {
      paper,
      language: machine.language,
      title: `${machine.equipment.tag}: ${machine.title}`,
      subject: `${machine.procedure}, ${catalog.facts.revision.toLowerCase()} ${machine.revision}, ${digest}`,
      author: issue.kind === 'issued' ? issue.by : catalog.draft,
      // Of printing, else of issue; never the clock's.
      made: now ?? (issue.kind === 'issued' ? issue.at : undefined),
      draft: issue.kind === 'draft'
    },
    catalog
  )
}
