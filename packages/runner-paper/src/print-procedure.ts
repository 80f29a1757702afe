import type { ProvedMachine } from '@lockwright/proof'
import { layOut } from './blocks/lay-out.js'
import { catalogFor } from './catalog.js'
import { drawDocument } from './draw/draw-document.js'
import { pageTexts } from './draw/page-texts.js'
import type { PrintOptions } from './print-options.js'
import { buildSheet } from './sheet/build-sheet.js'
import { withWording } from './templates/wording-keys.js'
import type { Beside } from './translations/beside-flows.js'
import { machineInLanguage } from './translations/machine-in-language.js'

/**
 * The printed checklist of a proved machine as a PDF: machine, sheet, blocks, strips, pages, file. The same
 * machine and options give the same bytes. `options.for` is taken as checked (`chooseGenerations` does).
 */
export function printProcedure(machine: ProvedMachine, options: PrintOptions): Promise<Uint8Array> {
  return printSheet(machine, options, undefined)
}

/** The same with another language beside it, where there is one. */
export async function printSheet(
  machine: ProvedMachine,
  options: PrintOptions,
  beside: Beside | undefined
): Promise<Uint8Array> {
  const catalog = withWording(catalogFor(options.language, machine.language), options.templates?.wording ?? {})
  const sheet = buildSheet(machineInLanguage(machine, catalog), options.for)
  const generation = sheet.chosen.map(({ value }) => value.name).join(', ')
  const texts = pageTexts(machine, generation, options, catalog)
  const { issue, now, digest, paper, images } = options
  return drawDocument(
    layOut(sheet, options, catalog),
    texts,
    {
      paper,
      language: machine.language,
      title: `${machine.equipment.tag}: ${machine.title}`,
      subject: `${catalog.running.revision(machine.procedure, machine.revision)}, ${digest}${whichSheet(options)}`,
      author: issue.kind === 'issued' ? issue.by : catalog.draft,
      // Of printing, else of issue; never the clock's.
      made: now ?? (issue.kind === 'issued' ? issue.at : undefined),
      draft: issue.kind === 'draft',
      ...(images === undefined ? {} : { images }),
      ...(beside === undefined ? {} : { beside })
    },
    catalog
  )
}

/** What the file says of the sheet that it is, for whoever reads the filled form: serial number, generations, and clock. */
function whichSheet({ for: generations = {}, serial, zone }: PrintOptions): string {
  const only = Object.entries(generations).map(([axis, value]) => `, for:${axis}=${value}`)
  return [
    ...(serial === undefined ? [] : [`, sheet:${serial}`]),
    ...only,
    ...(zone === undefined ? [] : [`, times:UTC${zone}`])
  ].join('')
}
