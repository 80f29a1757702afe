import type { ProvedMachine } from '@lockwright/proof'
import type { FilledTemplates, PrintOptions } from '@lockwright/runner-paper'
import { CannotRun } from './read-input.js'

/** The templates of a site filled for one sheet; undefined where no site was named. A fault in one stops the printing. */
export async function siteSheetTemplates(
  machine: ProvedMachine,
  options: PrintOptions,
  site: string | undefined
): Promise<FilledTemplates | undefined> {
  if (site === undefined) return undefined
  const { siteTemplates, templateFaultText, templatesForSheet } = await import('@lockwright/runner-paper')
  const read = await siteTemplates(site)
  const filled = read.ok ? await templatesForSheet(machine, options, read.templates) : read
  if (!filled.ok) throw new CannotRun(filled.faults.map(templateFaultText).join('\n'))
  return filled.filled
}
