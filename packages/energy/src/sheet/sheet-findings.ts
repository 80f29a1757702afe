import type { Outcome } from '../calculations/calculation.js'
import { storedVoltFactor } from '../calculations/electric.js'
import { isAccumulator } from '../calculations/liquid.js'
import { computedOf } from '../calculations/source-calculations.js'
import { type EnergyParameters, safeBelow } from '../energy-parameters.js'
import { formatMeasure } from '../format-beside.js'
import { plainNumber } from '../format-number.js'
import { formatDuration } from '../format-quantity.js'
import type { RequiredWait } from '../required-wait.js'
import { energyMagnitude } from '../thresholds/energy-magnitude.js'
import { dischargeTrap } from '../thresholds/residual-voltage.js'
import { touchThreshold } from '../thresholds/touch-threshold.js'

interface Reckoned {
  readonly energy: Outcome
  readonly time: Outcome
  readonly further: readonly Outcome[]
  readonly wait: RequiredWait
}

/** What follows from the figures and whoever is at the machine has to know, as full sentences. */
export function findingsOf(source: EnergyParameters, reckoned: Reckoned): readonly string[] {
  return [
    ...waitFindings(reckoned.wait),
    ...capacitorFindings(source, reckoned.further),
    ...accumulatorFindings(reckoned),
    ...touchFindings(source)
  ]
}

/** What whoever declares the source could add, or has to look at again, as full sentences. */
export function adviceOf(source: EnergyParameters, { energy }: Reckoned): readonly string[] {
  return [...liquidAdvice(source, energy), ...springAdvice(source), ...touchAdvice(source)]
}

function waitFindings({ grounds, writtenTooShort }: RequiredWait): readonly string[] {
  const { written, label, computed } = grounds
  return [
    ...(writtenTooShort && written !== undefined
      ? [`The written wait of ${formatDuration(written)} is too short.`]
      : []),
    ...(label !== undefined && computed !== undefined && label < computed
      ? [
          `The label asks for ${formatDuration(label)}, and the worst case of what is declared takes ${formatDuration(computed)}.`
        ]
      : [])
  ]
}

function capacitorFindings(source: EnergyParameters, further: readonly Outcome[]): readonly string[] {
  const voltage = source.quantities['voltage']
  const safe = safeBelow(source)
  if (source.kind !== 'capacitor' || voltage === undefined || safe === undefined) return []
  const trap = dischargeTrap(voltage.interval.high * storedVoltFactor(source), safe.interval.low)
  const left = further.map(computedOf).find((found) => found?.id === 'capacitor-energy-at-safe-level')
  const judged = left === undefined ? undefined : energyMagnitude('capacitor', left.worst)
  return [
    ...(trap === undefined ? [] : [trap]),
    ...(left !== undefined && judged?.kind === 'judged' && judged.magnitude === 'very-dangerous'
      ? [
          `At its safe level it still holds ${formatMeasure(left.worst, 'energy')}: short it before anything touches its terminals.`
        ]
      : [])
  ]
}

function accumulatorFindings({ energy, further }: Reckoned): readonly string[] {
  const kept = further.map(computedOf).find((found) => found?.id === 'accumulator-precharge-energy')
  if (kept === undefined) return []
  const given = computedOf(energy)
  const more = given !== undefined && kept.worst > given.worst ? ', more than the oil gave up' : ''
  return [`When the oil is drained the gas still holds ${formatMeasure(kept.worst, 'energy')}${more}.`]
}

/** What can be said of a liquid while nothing says what makes its pressure. */
function liquidAdvice(source: EnergyParameters, energy: Outcome): readonly string[] {
  if (source.kind !== 'liquid' || energy.kind !== 'not-computable' || isAccumulator(source)) return []
  const { pressure, volume } = source.quantities
  const bound =
    pressure === undefined || volume === undefined
      ? ''
      : `; it is at most ${formatMeasure(pressure.interval.high * volume.interval.high, 'energy')} then`
  return [
    `The pressure does not tell what makes it. Where liquid that stands above does, give \`column-height\`${bound}. Where a pump does, give \`bulk-modulus\`.`
  ]
}

function springAdvice({ kind, quantities }: EnergyParameters): readonly string[] {
  const { rate, deflection, preload } = quantities
  if (kind !== 'spring' || rate === undefined || deflection === undefined || preload === undefined) return []
  const kept = preload.dimension === 'force' ? preload.si / rate.si : preload.si
  return kept <= deflection.si
    ? []
    : [
        'The preload is greater than the deflection gives: where the deflection was measured from the preloaded length, add the preload to it, for the spring holds more than is reckoned here.'
      ]
}

/** What has to be said first before a touch threshold can be given. */
function touchAdvice(source: EnergyParameters): readonly string[] {
  if (source.kind !== 'thermal') return []
  const found = touchThreshold(source.surface, source.contact)
  switch (found.kind) {
    case 'missing':
      return [
        `No touch threshold can be given: missing ${found.missing.join(' and ')}. The time of contact and the material decide what burns.`
      ]
    case 'not-understood':
      return [`No touch threshold can be given: ${found.why}`]
    case 'found':
      return []
  }
}

function touchFindings(source: EnergyParameters): readonly string[] {
  const found = source.kind === 'thermal' ? touchThreshold(source.surface, source.contact) : undefined
  if (found?.kind !== 'found') return []
  const threshold = found.celsius + 273.15
  const safe = safeBelow(source)
  const said = `${found.material} touched for up to ${formatDuration(found.seconds)} burns from ${formatMeasure(threshold, 'temperature')} (${found.source})`
  return safe !== undefined && safe.interval.high > threshold
    ? [`The safe level of ${plainNumber(safe.interval.high - 273.15, 4)} °C is above the touch threshold: ${said}.`]
    : [`Touch threshold: ${said}.`]
}
