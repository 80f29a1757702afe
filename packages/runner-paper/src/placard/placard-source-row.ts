import type { SheetEntry } from '@lockwright/energy'
import type { Runs } from '@lockwright/language'
import type { MachineSource } from '@lockwright/machine'
import type { Cell } from '../blocks/block.js'
import { joulesText, judgedEnergy } from '../blocks/energy-lines.js'
import type { Names } from '../blocks/names.js'
import { sourceRow } from '../blocks/source-rows.js'
import type { Catalog } from '../catalog.js'
import type { Sheet } from '../sheet/sheet.js'
import { say, stress, unbroken } from '../text/say.js'

/** What tells how much of a source there is; the rest stands on the checklist. */
const telling = [
  'voltage',
  'capacitance',
  'pressure',
  'volume',
  'speed',
  'mass',
  'height',
  'temperature',
  'current'
] as const

/** A source on the placard, closer set than on the checklist: place and safe position stand in the table of devices. */
export function placardSourceRow(
  sheet: Sheet,
  source: MachineSource,
  entry: SheetEntry | undefined,
  names: Names,
  catalog: Catalog
): readonly Cell[] {
  const [, , release = [], verify = []] = sourceRow(sheet, source, undefined, names, catalog)
  return [magnitude(source, entry, names, catalog), isolation(source, names, catalog), joined(release), joined(verify)]
}

function magnitude(source: MachineSource, entry: SheetEntry | undefined, names: Names, catalog: Catalog): Cell {
  const { sourceKinds, energy, written } = catalog
  const values = telling.flatMap((name) => source.quantities[name]?.written ?? []).map(unbroken)
  const kind = `${source.describe ?? sourceKinds[source.kind]}${names.suffix(source.only)}`
  const judged = entry === undefined ? undefined : judgedEnergy(entry)
  const word = entry?.magnitude?.kind === 'judged' ? `, ${energy.magnitudes[entry.magnitude.magnitude]}` : ''
  const told: readonly Runs[] =
    judged !== undefined
      ? [stress(`${energy.most(written(joulesText(judged.worst)))}${word}`)]
      : entry?.energy.kind === 'not-computable'
        ? [say(energy.unknown)]
        : []
  return [[...stress(source.id), ...say(`: ${[kind, ...values].join(', ')}`)], ...told]
}

function isolation(source: MachineSource, names: Names, { tells }: Catalog): Cell {
  const points = names.points(source.at)
  const fed = names.sources(source.fedBy)
  return [
    ...(points === '' ? [] : [stress(points)]),
    ...(fed === '' ? [] : [say(tells.fedBy(fed))]),
    ...(points === '' && fed === '' && source.unfed === null ? [say(tells.noDevice)] : []),
    ...(source.unfed === null ? [] : [say(tells.unfed(source.unfed))]),
    ...(source.guarded === null ? [] : [say(tells.guarded(source.guarded))])
  ]
}

/** Lines that follow each other as one, so that short ones share a line of the page. */
function joined(cell: Cell): Cell {
  return [cell.flatMap((line, index) => (index === 0 ? line : [...say('; '), ...line]))]
}
