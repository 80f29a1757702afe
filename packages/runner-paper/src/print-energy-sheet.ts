import type { EnergySheet } from '@lockwright/energy'
import type { Machine } from '@lockwright/machine'
import { energySheetBlocks } from './blocks/energy-sheet-blocks.js'
import { shortDigest } from './blocks/front-blocks.js'
import { type Catalog, english } from './catalog.js'
import { drawDocument } from './draw/draw-document.js'
import type { PageTexts } from './draw/page-texts.js'
import type { EnergySheetOptions } from './print-options.js'

/**
 * The calculation sheet of a machine as a PDF, its curves as vector drawings. The machine need not be proved: a
 * calculation is no instruction. The same input gives the same bytes.
 */
export async function printEnergySheet(
  machine: Machine,
  sheet: EnergySheet,
  options: EnergySheetOptions
): Promise<Uint8Array> {
  const catalog = english
  return drawDocument(
    energySheetBlocks(machine, sheet, options, catalog),
    textsOf(machine, options, catalog),
    {
      paper: options.paper,
      language: machine.language,
      title: `${machine.equipment.tag}: ${catalog.energy.sheet}`,
      subject: `${machine.procedure}, ${catalog.facts.revision.toLowerCase()} ${machine.revision}, ${options.digest}`,
      author: 'lockwright',
      made: options.now,
      draft: false
    },
    catalog
  )
}

function textsOf(machine: Machine, { digest }: EnergySheetOptions, { energy, facts }: Catalog): PageTexts {
  const revision = `${machine.procedure} ${facts.revision.toLowerCase()} ${machine.revision}`
  return {
    letterhead: machine.equipment.place,
    header: `${machine.equipment.tag}  ${energy.sheet}`,
    fixedHeader: `${revision}, ${facts.digest.split(' ')[0]?.toLowerCase()} ${shortDigest(digest)}`,
    footer: revision,
    fixedFooter: energy.notForWork
  }
}
