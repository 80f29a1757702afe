import type { ProvedMachine } from '@lockwright/proof'
import { shortDigest } from '../blocks/front-blocks.js'
import { type Catalog, catalogFor } from '../catalog.js'
import { flowsOf } from '../draw/flows.js'
import { type OpenDocument, openDocument } from '../draw/open-document.js'
import { type Placed, paginate } from '../draw/paginate.js'
import { penOf } from '../draw/pen.js'
import type { Setting } from '../draw/setting.js'
import { type Page, paperSize } from '../draw/style.js'
import { buildSheet } from '../sheet/build-sheet.js'
import { printable } from '../text/printable.js'
import { machineInLanguage } from '../translations/machine-in-language.js'
import { drawPlacardFrame } from './draw-placard-frame.js'
import type { HangingOptions, Hung, PlacardPaper } from './hanging-options.js'
import { type Droppable, droppable, placardBlocks } from './placard-blocks.js'

/** How much larger than the checklist it is set at most, and how small at least: common practice, no source. */
const largest = 2
const step = 0.05
/** Text of 7 points, by the 8 points of the tables at full size: read at arm's length. */
const smallest = 0.875

/** The placard that hangs beside the machine: always one page; refused where the page is too small for every source. */
export async function printPlacard(
  machine: ProvedMachine,
  options: HangingOptions & { readonly paper: PlacardPaper }
): Promise<Hung> {
  const catalog = catalogFor(options.language, machine.language)
  const sheet = buildSheet(machineInLanguage(machine, catalog), options.for)
  const [width, height] = paperSize(options.paper)
  const open = await openDocument(
    { width, height },
    {
      language: machine.language,
      title: `${machine.equipment.tag}: ${catalog.hanging.placard.kicker}`,
      subject: `${catalog.running.revision(machine.procedure, machine.revision)}, ${options.digest}`,
      author: options.issue.kind === 'issued' ? options.issue.by : catalog.draft,
      made: options.now ?? (options.issue.kind === 'issued' ? options.issue.at : undefined)
    }
  )
  for (let count = 0; count <= droppable.length; count += 1) {
    const left = droppable.slice(0, count)
    const blocks = printable(placardBlocks(sheet, options, catalog, left), open.fonts.shows).value
    for (let scale = largest; scale >= smallest - step / 2; scale -= step) {
      const page = virtualPage(width, height, scale)
      const setting: Setting = { page, metrics: open.fonts, catalog }
      const flows = flowsOf(blocks, machine.equipment.place, setting)
      const pages = paginate(flows, page.height - page.top - page.bottom)
      const [only, ...more] = pages
      if (only === undefined || more.length > 0) continue
      const footer = catalog.running.digest(machine.procedure, machine.revision, shortDigest(options.digest))
      const pdf = await drawn(open, only, setting, scale, footer, options)
      return { ok: true, pdf, remarks: remarksOf(left, catalog) }
    }
  }
  // The document was begun and is dropped unwritten.
  open.document.end()
  return { ok: false, faults: [refused(options.paper)] }
}

function remarksOf(left: readonly Droppable[], { hanging }: Catalog): readonly string[] {
  const { leftOut, parts } = hanging.placard
  return left.length === 0 ? [] : [leftOut(left.map((part) => parts[part]).join(', '))]
}

function refused(paper: PlacardPaper): string {
  const larger = paper === 'a3' ? 'print a placard for each generation with --for' : 'take --paper a3'
  return `The placard does not fit on one page of ${paper} at a size that can be read, even with the order of the steps and the stored energies left out. A source that is left off a placard is one that nobody locks, so none was printed: ${larger}, or shorten the texts of the procedure's front matter.`
}

/** The page as it is set; it is drawn smaller or larger by the scale. */
function virtualPage(width: number, height: number, scale: number): Page {
  return { width: width / scale, height: height / scale, left: 30, right: 30, top: 25, bottom: 33 }
}

async function drawn(
  { document, bytes, fonts }: OpenDocument,
  strips: readonly Placed[],
  setting: Setting,
  scale: number,
  footer: string,
  { issue }: HangingOptions
): Promise<Uint8Array> {
  const { pen, turn, finish } = penOf(document, fonts)
  const { page } = setting
  turn()
  document.save()
  document.scale(scale)
  drawPlacardFrame(pen, setting, footer, issue.kind === 'draft')
  for (const { slab, y } of strips) slab.draw(pen, page.left, page.top + y)
  document.restore()
  finish()
  document.end()
  return bytes
}
