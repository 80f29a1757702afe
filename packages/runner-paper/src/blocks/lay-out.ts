import type { Catalog } from '../catalog.js'
import type { PrintOptions } from '../print-options.js'
import type { Sheet } from '../sheet/sheet.js'
import type { Block } from './block.js'
import { closingBlocks } from './closing-blocks.js'
import { flowBlocks } from './flow-blocks.js'
import { frontBlocks } from './front-blocks.js'
import { namesOf } from './names.js'
import { stepBlocks } from './step-blocks.js'

/** Everything that a sheet prints, in reading order, as data: nothing is measured or drawn yet. */
export function layOut(sheet: Sheet, options: PrintOptions, catalog: Catalog): readonly Block[] {
  const names = namesOf(sheet, catalog)
  return [
    ...frontBlocks(sheet, options, names, catalog),
    ...flowBlocks(sheet, names, catalog),
    ...stepBlocks(sheet, names, catalog),
    ...closingBlocks(sheet, options, names, catalog)
  ]
}
