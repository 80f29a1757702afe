import type { Machine } from '@lockwright/machine'
import { shortDigest } from '../blocks/front-blocks.js'
import type { Catalog } from '../catalog.js'
import type { PrintOptions } from '../print-options.js'

/** The texts at the edges of each page. `fixed` ones are not made from a template, so no template can drop them. */
export interface PageTexts {
  readonly letterhead: string
  readonly header: string
  readonly fixedHeader: string
  readonly footer: string
  readonly fixedFooter: string
}

/** A site's templates say letterhead, header and footer; the rest is fixed. */
export function pageTexts(machine: Machine, generation: string, options: PrintOptions, catalog: Catalog): PageTexts {
  const { issue, templates } = options
  const only = generation === '' ? '' : ` (${catalog.forGeneration(generation)})`
  return {
    letterhead: templates?.letterhead ?? machine.equipment.place,
    header: templates?.header ?? `${machine.equipment.tag}  ${machine.title}${only}`,
    fixedHeader: `${catalog.running.digest(machine.procedure, machine.revision, shortDigest(options.digest))}, ${sheetText(options, catalog)}`,
    footer: templates?.footer ?? catalog.running.revision(machine.procedure, machine.revision),
    fixedFooter:
      issue.kind === 'draft'
        ? `${catalog.draft}, ${catalog.notIssued}`
        : catalog.issued(issue.by, catalog.moment(issue.at))
  }
}

/** Which sheet of paper this is, on every page: pages of two prints must not be mixed up. */
function sheetText({ serial }: PrintOptions, { form }: Catalog): string {
  return serial === undefined ? form.sheetWithout : form.sheet(serial)
}
