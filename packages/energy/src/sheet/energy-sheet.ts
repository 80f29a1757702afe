import type { Calculation, Interval, Outcome } from '../calculations/calculation.js'
import { computedOf, sourceCalculations } from '../calculations/source-calculations.js'
import { dimensionFacts } from '../dimensions.js'
import type { EnergyKind, EnergyParameters } from '../energy-parameters.js'
import { formatBeside } from '../format-beside.js'
import type { Quantity } from '../quantity.js'
import { relieveTime } from '../relieve-time.js'
import { type RequiredWait, requiredWait } from '../required-wait.js'
import { energyMagnitude, feltAs, type JudgedMagnitude } from '../thresholds/energy-magnitude.js'
import { curvePoints, type DecayCurve } from './curve-points.js'
import { adviceOf, findingsOf } from './sheet-findings.js'
import { applyWhatIf, type WhatIf, whatIfRemarks } from './what-if.js'

/** A source of a procedure fits as it is. */
export interface SheetSource extends EnergyParameters {
  readonly id: string
}

export interface EnergySheetOptions {
  readonly whatIf?: readonly WhatIf[]
  /** The wait that a relieve step writes for a source, by the source's id. */
  readonly writtenWaits?: Readonly<Record<string, Quantity>>
}

export interface SheetParameter {
  readonly name: string
  /** As written, with the other system of units beside it where both help. */
  readonly text: string
  /** In the coherent SI unit; words such as the surface have neither. */
  readonly interval?: Interval
  readonly unit?: string
  /** What it stands in place of, where it is a what-if; `nothing` where it was not declared. */
  readonly insteadOf?: string
}

export interface SheetEntry {
  readonly id: string
  readonly kind: EnergyKind
  readonly parameters: readonly SheetParameter[]
  readonly energy: Outcome
  readonly magnitude?: JudgedMagnitude
  /** The calculation that magnitude and comparison are of, by its id. */
  readonly judgedBy?: string
  /** A comparison that is felt. */
  readonly felt?: string
  readonly time: Outcome
  /** The largest of the written, the label's and the computed wait. */
  readonly wait: RequiredWait
  readonly further: readonly Outcome[]
  readonly curve?: DecayCurve
  /** What whoever is at the machine has to know, as full sentences. */
  readonly findings: readonly string[]
  /** What whoever declares the source could add, or has to look at again, as full sentences. */
  readonly advice: readonly string[]
}

/** The calculation sheet of a procedure, as plain data that JSON can hold. */
export interface EnergySheet {
  readonly entries: readonly SheetEntry[]
  /** What-ifs that change nothing, or more than may be meant, as full sentences. */
  readonly remarks: readonly string[]
  readonly caution: string
}

const caution =
  'These figures follow from what is declared and from the formulas named, at the worst end of every tolerance. They replace no reading: the rules of the plant, local codes and qualified people come first.'

/** Reckons all that can be reckoned of each source, and says what cannot be and why. */
export function energySheet(sources: readonly SheetSource[], options: EnergySheetOptions = {}): EnergySheet {
  const whatIf = options.whatIf ?? []
  return {
    entries: sources.map((source) => entryOf(source, whatIf, options.writtenWaits?.[source.id])),
    remarks: whatIfRemarks(sources, whatIf),
    caution
  }
}

function entryOf(declared: SheetSource, whatIfs: readonly WhatIf[], written: Quantity | undefined): SheetEntry {
  const { source } = applyWhatIf(declared, whatIfs)
  const { energy, time, further } = sourceCalculations(source)
  const wait = requiredWait({ written, label: source.quantities['label-wait'], computed: relieveTime(source) })
  const worst = worstEnergy(energy, further)
  const curve = curvePoints(source)
  const reckoned = { energy, time, further, wait }
  return {
    id: source.id,
    kind: source.kind,
    parameters: parametersOf(source, declared),
    energy,
    ...(worst === undefined
      ? {}
      : { magnitude: energyMagnitude(source.kind, worst.worst), felt: feltAs(worst.worst), judgedBy: worst.id }),
    time,
    wait,
    further,
    ...(curve === undefined ? {} : { curve }),
    findings: findingsOf(source, reckoned),
    advice: adviceOf(source, reckoned)
  }
}

/** The energy that the source is judged by: of an accumulator the larger of what the oil and what the gas keeps. */
function worstEnergy(energy: Outcome, further: readonly Outcome[]): Calculation | undefined {
  const given = computedOf(energy)
  const kept = further
    .map(computedOf)
    .find((found): found is Calculation => found?.id === 'accumulator-precharge-energy')
  return kept !== undefined && kept.worst > (given?.worst ?? 0) ? kept : given
}

function parametersOf(source: SheetSource, declared: SheetSource): readonly SheetParameter[] {
  const quantities = Object.entries(source.quantities).flatMap(([name, quantity]): readonly SheetParameter[] => {
    if (quantity === undefined) return []
    const before = declared.quantities[name]
    return [
      {
        name,
        text: formatBeside(quantity),
        interval: quantity.interval,
        unit: dimensionFacts[quantity.dimension].unit,
        ...(quantity === before ? {} : { insteadOf: before?.written ?? 'nothing' })
      }
    ]
  })
  const words = (['gas', 'surface', 'contact'] as const).flatMap((name): readonly SheetParameter[] => {
    const [text, before] = [source[name], declared[name]]
    return text === undefined ? [] : [{ name, text, ...(text === before ? {} : { insteadOf: before ?? 'nothing' }) }]
  })
  return [...quantities, ...words]
}
