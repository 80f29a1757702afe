import type { ProvedMachine } from '@lockwright/proof'
import { type Catalog, catalogFor } from '../catalog.js'
import { openDocument } from '../draw/open-document.js'
import { type Pen, penOf } from '../draw/pen.js'
import type { Setting } from '../draw/setting.js'
import { pageOf, paperSize } from '../draw/style.js'
import { tag } from '../draw/tag.js'
import type { HangingOptions, Hung } from '../placard/hanging-options.js'
import type { PrintOptions } from '../print-options.js'
import { buildSheet } from '../sheet/build-sheet.js'
import { printable } from '../text/printable.js'
import { say } from '../text/say.js'
import { machineInLanguage } from '../translations/machine-in-language.js'
import { type DeviceFacts, deviceFacts } from './device-facts.js'
import { drawLabel, labelSize } from './draw-label.js'
import { drawDraftWord, drawTagBack, drawTagFront, tagSize } from './draw-tag.js'
import { fitText } from './fit-text.js'

type Options = HangingOptions & { readonly paper: PrintOptions['paper'] }

/** One tag for each isolating device, front and back beside each other, to be cut, folded and punched. */
export function printTags(machine: ProvedMachine, options: Options): Promise<Hung> {
  return printDevices(machine, options, {
    title: (catalog) => catalog.hanging.tag.legends[0] ?? catalog.sheet,
    across: 1,
    down: 2,
    width: tagSize.width * 2,
    height: tagSize.height,
    told: (catalog) => catalog.hanging.tag.cut,
    draw: (pen, x, y, facts, setting) => {
      const missing = [
        ...drawTagFront(pen, x, y, facts, setting),
        ...drawTagBack(pen, x + tagSize.width, y, facts, setting)
      ]
      pen.decor(() =>
        pen.path(
          [
            [x + tagSize.width, y],
            [x + tagSize.width, y + tagSize.height]
          ],
          { stroke: '#000000', weight: 0.6, dash: 4 }
        )
      )
      return missing
    }
  })
}

/** A sheet of labels for the isolating devices, one each. */
export function printLabels(machine: ProvedMachine, options: Options): Promise<Hung> {
  return printDevices(machine, options, {
    title: (catalog) => catalog.hanging.label.device,
    ...labelSize,
    told: () => '',
    draw: drawLabel
  })
}

interface Grid {
  readonly title: (catalog: Catalog) => string
  readonly across: number
  readonly down: number
  readonly width: number
  readonly height: number
  /** How the page is used, in small type at its foot. */
  readonly told: (catalog: Catalog) => string
  readonly draw: (pen: Pen, x: number, y: number, facts: DeviceFacts, setting: Setting) => readonly string[]
}

async function printDevices(machine: ProvedMachine, options: Options, grid: Grid): Promise<Hung> {
  const catalog = catalogFor(options.language, machine.language)
  const sheet = buildSheet(machineInLanguage(machine, catalog), options.for)
  const devices = deviceFacts(sheet, options, catalog)
  if (devices.length === 0) return { ok: false, faults: [noDevice] }
  const [width, height] = paperSize(options.paper)
  const { issue } = options
  const { document, fonts, bytes } = await openDocument(
    { width, height },
    {
      language: machine.language,
      title: `${machine.equipment.tag}: ${grid.title(catalog)}`,
      subject: `${catalog.running.revision(machine.procedure, machine.revision)}, ${options.digest}`,
      author: issue.kind === 'issued' ? issue.by : catalog.draft,
      made: options.now ?? (issue.kind === 'issued' ? issue.at : undefined)
    }
  )
  const setting: Setting = { page: pageOf(options.paper), metrics: fonts, catalog }
  const { pen, turn, finish } = penOf(document, fonts)
  const shown = printable(devices, fonts.shows).value
  const left = (width - grid.across * grid.width) / 2
  const top = (height - grid.down * grid.height) / 2
  const missing: string[] = []
  shown.forEach((facts, index) => {
    const at = index % (grid.across * grid.down)
    if (at === 0) {
      turn()
      drawFoot(pen, grid.told(catalog), width, height, setting)
    }
    const x = left + (at % grid.across) * grid.width
    const y = top + Math.floor(at / grid.across) * grid.height
    if (issue.kind === 'draft') drawDraftWord(pen, x, y, grid.width, grid.height, setting)
    missing.push(...grid.draw(pen, x, y, facts, setting).map((text) => `\`${facts.id}\`: ${text}`))
  })
  finish()
  document.end()
  const pdf = await bytes
  return missing.length === 0 ? { ok: true, pdf, remarks: [] } : { ok: false, faults: missing.map(tooLong) }
}

const noDevice =
  'The procedure declares no isolating device for what was chosen, so there is nothing to hang a tag or a label on: look at `points` in its front matter.'

function tooLong(text: string): string {
  return `There is no room for this text at a size that can be read: ${text.replace(/\.$/, '')}. A tag that drops a part of what a device cuts off misleads whoever relies on it, so none was printed: shorten the text in the front matter, or print one generation with --for.`
}

function drawFoot(pen: Pen, told: string, width: number, height: number, setting: Setting): void {
  if (told === '') return
  const set = fitText(say(told), { width: width - 80, height: 20 }, 7, setting)
  pen.under(tag('P', null), () => pen.lines(set.lines, 40, height - 22, set.size))
}
