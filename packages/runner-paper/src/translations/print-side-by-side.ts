import type { ProvedMachine } from '@lockwright/proof'
import { layOut } from '../blocks/lay-out.js'
import { catalogFor } from '../catalog.js'
import type { PrintOptions } from '../print-options.js'
import { printSheet } from '../print-procedure.js'
import { buildSheet } from '../sheet/build-sheet.js'
import { firstDifference, type SkeletonDifference } from './compare-skeletons.js'
import { machineInLanguage } from './machine-in-language.js'

/** The file; or where the translation first does something else than what it translates. */
export type SideBySide =
  | { readonly ok: true; readonly pdf: Uint8Array }
  | { readonly ok: false; readonly difference: SkeletonDifference }

/**
 * The checklist with a translation beside it, step by step, each in the language that it is written in. There is one set of
 * boxes and blanks, at the procedure that was issued; the translation is only read. Both have been proved.
 */
export async function printSideBySide(
  machine: ProvedMachine,
  translation: ProvedMachine,
  options: PrintOptions
): Promise<SideBySide> {
  const difference = firstDifference(machine, translation)
  if (difference !== null) return { ok: false, difference }
  const catalog = catalogFor(undefined, translation.language)
  const sheet = buildSheet(machineInLanguage(translation, catalog), options.for)
  const [title, ...rest] = layOut(sheet, options, catalog)
  const issued = new Intl.DisplayNames(catalog.locale, { type: 'language' }).of(machine.language) ?? machine.language
  const binding = catalog.hanging.sideBySide.binding(issued)
  const blocks = title?.kind === 'title' ? [{ ...title, kicker: `${title.kicker}. ${binding}` }, ...rest] : rest
  return { ok: true, pdf: await printSheet(machine, options, { blocks, catalog, language: translation.language }) }
}
