import type { ProvedMachine } from '@lockwright/proof'
import { catalogFor } from '../catalog.js'
import type { PrintOptions } from '../print-options.js'
import { buildSheet } from '../sheet/build-sheet.js'
import { type Filled, fillTemplates } from './fill-templates.js'
import type { SheetTemplates } from './read-templates.js'
import { valuesOfSheet } from './values-of-sheet.js'

/** A site's templates filled for one sheet, as `PrintOptions.templates` takes them; or every fault of what came out. */
export function templatesForSheet(
  machine: ProvedMachine,
  options: PrintOptions,
  templates: SheetTemplates
): Promise<Filled> {
  const catalog = catalogFor(options.language, machine.language)
  return fillTemplates(templates, valuesOfSheet(buildSheet(machine, options.for), options, catalog))
}
