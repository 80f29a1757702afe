import type { SheetEntry } from '@lockwright/energy'
import type { Runs } from '@lockwright/language'
import type { MachineSource } from '@lockwright/machine'
import type { Catalog } from '../catalog.js'
import type { Sheet, SheetStep } from '../sheet/sheet.js'
import { limitText } from '../text/limit-text.js'
import { say, stress, unbroken } from '../text/say.js'
import type { Cell } from './block.js'
import { energyLines, otherGrounds } from './energy-lines.js'
import type { Names } from './names.js'

/** One row of the table of energy sources: what it is, where it is cut off, how it is let out or held, how it is verified. */
export function sourceRow(
  sheet: Sheet,
  source: MachineSource,
  entry: SheetEntry | undefined,
  names: Names,
  catalog: Catalog
): readonly Cell[] {
  return [
    [...magnitude(source, names, catalog), ...(entry === undefined ? [] : energyLines(entry, catalog))],
    isolation(sheet, source, names, catalog),
    release(sheet, source, entry, names, catalog),
    verification(sheet, source, names, catalog)
  ]
}

function magnitude(source: MachineSource, names: Names, { sourceKinds, quantities, tells }: Catalog): Cell {
  const values = Object.entries(source.quantities)
    .filter(([name]) => name !== 'safe-below')
    .map(([name, { written }]) => `${quantities[name] ?? name} ${unbroken(written)}`.trim())
  return [
    [...stress(source.id), ...say(`: ${source.describe ?? sourceKinds[source.kind]}${names.suffix(source.only)}`)],
    ...lines(values.join('; ')),
    ...lines(source.conductors.length === 0 ? '' : tells.conductors(source.conductors.join(', ')))
  ]
}

function isolation(sheet: Sheet, source: MachineSource, names: Names, { tells }: Catalog): Cell {
  const points = sheet.machine.points.filter(({ id }) => source.at.includes(id) && names.present({ kind: 'point', id }))
  const fed = names.sources(source.fedBy)
  return [
    ...points.map(
      (point): Runs => [
        ...stress(point.id),
        ...say(` ${point.is}, ${point.where} (${point.safe})${names.suffix(point.only)}`)
      ]
    ),
    ...lines(fed === '' ? '' : tells.fedBy(fed)),
    ...lines(points.length === 0 && fed === '' && source.unfed === null ? tells.noDevice : ''),
    ...lines(source.unfed === null ? '' : tells.unfed(source.unfed)),
    ...lines(source.guarded === null ? '' : tells.guarded(source.guarded))
  ]
}

function release(
  sheet: Sheet,
  source: MachineSource,
  entry: SheetEntry | undefined,
  names: Names,
  catalog: Catalog
): Cell {
  const { tells } = catalog
  const letOut = sheet.steps.filter(({ state }) => state.kind === 'relieve' && state.sources.includes(source.id))
  const held = sheet.machine.restraints.filter(
    ({ id, holds }) => holds.includes(source.id) && names.present({ kind: 'restraint', id })
  )
  const tools = letOut.flatMap(({ state }) => (state.kind === 'relieve' ? state.with : []))
  const told: Runs[] = [
    ...lines(letOut.length === 0 ? '' : tells.letOut(names.steps(numbers(letOut)))),
    ...lines(tools.length === 0 ? '' : tells.withWhat(names.items([...new Set(tools)]))),
    ...waits(letOut, source, entry, catalog),
    ...lines(held.length === 0 ? '' : tells.heldBy(names.restraints(held.map(({ id }) => id)))),
    ...lines(source.rebuilds ? tells.rebuilds : '')
  ]
  if (told.length > 0) return told
  if (isLeftOn(sheet, source)) return [stress(tells.staysOn)]
  return [say(source.store === 'none' ? tells.storesNothing : tells.noRelease)]
}

function waits(
  letOut: readonly SheetStep[],
  source: MachineSource,
  entry: SheetEntry | undefined,
  catalog: Catalog
): readonly Runs[] {
  const { tells } = catalog
  const longest = letOut
    .flatMap(({ inputs }) => inputs.flatMap((input) => (input.kind === 'wait' ? [input] : [])))
    .filter((wait) => wait.source === source.id)
    .sort((one, other) => other.seconds - one.seconds)[0]
  if (longest === undefined) return []
  const others = entry === undefined ? '' : otherGrounds(entry.wait, longest.because, catalog)
  return [[...stress(tells.wait(longest.seconds)), ...say(` (${tells.because[longest.because]}${others})`)]]
}

function verification(sheet: Sheet, source: MachineSource, names: Names, catalog: Catalog): Cell {
  const { tells } = catalog
  const proves = sheet.steps.flatMap((step) =>
    step.state.kind === 'prove' && step.state.sources.includes(source.id) ? [{ step, state: step.state }] : []
  )
  if (proves.length === 0) return [say(isLeftOn(sheet, source) ? tells.staysOn : tells.notVerified)]
  const readings = proves.flatMap(({ step }) =>
    step.inputs.filter((input) => input.kind === 'reading' && input.source === source.id)
  )
  const limits = new Set(
    readings.flatMap((input) => (input.kind === 'reading' ? [limitText(input.limits, input.unit, catalog)] : []))
  )
  const tools = new Set(proves.flatMap(({ state }) => state.with))
  return [
    ...[...limits].map(stress),
    ...lines(proves.some(({ state }) => state.by === 'trial') ? tells.trial : ''),
    ...lines(tools.size === 0 ? '' : tells.withWhat(names.items([...tools]))),
    say(tells.verified(names.steps(numbers(proves.map(({ step }) => step)))))
  ]
}

function isLeftOn({ machine }: Sheet, source: MachineSource): boolean {
  return machine.leftOn.some((left) => left.source === source.id)
}

function numbers(steps: readonly SheetStep[]): readonly number[] {
  return steps.map(({ number }) => number)
}

/** A line, or none where there is nothing to say. */
function lines(text: string): readonly Runs[] {
  return text === '' ? [] : [say(text)]
}
