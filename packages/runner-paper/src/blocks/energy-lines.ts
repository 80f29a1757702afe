import {
  type Calculation,
  energySheet,
  formatMeasure,
  judgedByRest,
  type RequiredWait,
  type SheetEntry
} from '@lockwright/energy'
import type { Runs, SourceId } from '@lockwright/language'
import { type Machine, writtenWaits } from '@lockwright/machine'
import type { Catalog } from '../catalog.js'
import { say, stress, unbroken } from '../text/say.js'
import { entryInLanguage } from '../translations/entry-in-language.js'

export type Energies = ReadonlyMap<SourceId, SheetEntry>

/** All that can be reckoned of the sources of a machine. */
export function energiesOf(machine: Machine, catalog: Catalog): Energies {
  const { entries } = energySheet(machine.sources, { writtenWaits: writtenWaits(machine) })
  return new Map(
    machine.sources.flatMap(({ id }, index) => {
      const entry = entries[index]
      return entry === undefined ? [] : [[id, entryInLanguage(entry, catalog)] as const]
    })
  )
}

/** How much it is at most, what it is felt as and how dangerous; nothing for what stores nothing. */
export function energyLines(entry: SheetEntry, { energy, written }: Catalog): readonly Runs[] {
  const judged = judgedEnergy(entry)
  if (judged === undefined || entry.felt === undefined) {
    return entry.energy.kind === 'not-computable' ? [say(energy.unknown)] : []
  }
  const of = judgedByRest(entry) ? energy.of.rest : energy.of.whole
  const { magnitude } = entry
  const judgement: readonly Runs[] =
    magnitude?.kind !== 'judged'
      ? []
      : [
          [
            ...stress(energy.magnitudes[magnitude.magnitude]),
            ...say(
              magnitude.threshold === undefined ? '' : energy.from(written(joulesText(magnitude.threshold.joules)))
            )
          ]
        ]
  return [
    [...stress(energy.most(written(joulesText(judged.worst)))), ...say(energy.felt(unbrokenUnits(entry.felt), of))],
    ...judgement
  ]
}

/** The calculation that magnitude and comparison are of. */
export function judgedEnergy({ energy, further, judgedBy }: SheetEntry): Calculation | undefined {
  return [energy, ...further].flatMap((outcome) =>
    outcome.kind === 'computed' && outcome.calculation.id === judgedBy ? [outcome.calculation] : []
  )[0]
}

/** What the grounds that do not govern would ask for. */
export function otherGrounds({ grounds }: RequiredWait, because: RequiredWait['because'], { energy }: Catalog): string {
  const others = (['written', 'label', 'computed'] as const).flatMap((ground) => {
    const seconds = grounds[ground]
    return seconds === undefined || ground === because ? [] : [energy.ground[ground](seconds)]
  })
  return others.length === 0 ? '' : energy.besides(others)
}

/** Joules alone: the comparison beside them says the rest. */
export function joulesText(joules: number): string {
  return unbroken(formatMeasure(joules, 'energy', { digits: 3 }).replace(/ \(.*\)$/, ''))
}

/** Each number stays with its unit. */
function unbrokenUnits(text: string): string {
  return text.replace(/(\d) (?=(?:kg|lb|g|t|m)\b)/g, '$1\u00A0')
}
