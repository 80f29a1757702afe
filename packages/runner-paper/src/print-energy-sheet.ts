import type { EnergySheet } from '@lockwright/energy'
import type { Machine } from '@lockwright/machine'
import { energySheetBlocks } from './blocks/energy-sheet-blocks.js'
import { shortDigest } from './blocks/front-blocks.js'
import { type Catalog, catalogFor } from './catalog.js'
import { drawDocument } from './draw/draw-document.js'
import type { PageTexts } from './draw/page-texts.js'
import type { EnergySheetOptions } from './print-options.js'
import { blocksInLanguage } from './translations/blocks-in-language.js'
import { sheetInLanguage } from './translations/entry-in-language.js'

/**
 * The calculation sheet of a machine as a PDF, its curves as vector drawings. The machine need not be proved: a
 * calculation is no instruction. The same input gives the same bytes.
 */
export async function printEnergySheet(
  machine: Machine,
  sheet: EnergySheet,
  options: EnergySheetOptions
): Promise<Uint8Array> {
  const catalog = catalogFor(options.language, machine.language)
  return drawDocument(
    blocksInLanguage(energySheetBlocks(machine, sheetInLanguage(sheet, catalog), options, catalog), catalog),
    textsOf(machine, options, catalog),
    {
      paper: options.paper,
      language: machine.language,
      title: `${machine.equipment.tag}: ${catalog.energy.sheet}`,
      subject: `${catalog.running.revision(machine.procedure, machine.revision)}, ${options.digest}`,
      author: 'lockwright',
      made: options.now,
      draft: false
    },
    catalog
  )
}

function textsOf(machine: Machine, { digest }: EnergySheetOptions, { energy, running }: Catalog): PageTexts {
  return {
    letterhead: machine.equipment.place,
    header: `${machine.equipment.tag}  ${energy.sheet}`,
    fixedHeader: running.digest(machine.procedure, machine.revision, shortDigest(digest)),
    footer: running.revision(machine.procedure, machine.revision),
    fixedFooter: energy.notForWork
  }
}
