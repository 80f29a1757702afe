import type { Interval } from '../calculations/calculation.js'
import { storedVoltFactor } from '../calculations/electric.js'
import { atmosphereOf, gasConstantOf, heatRatioOf } from '../calculations/gas-inputs.js'
import { type EnergyParameters, safeBelow } from '../energy-parameters.js'
import { ventingTime } from '../formulas/blow-down.js'
import { levelAfter } from '../formulas/exponential.js'
import { columnDrainTime } from '../formulas/liquid-store.js'
import type { Dimension, Quantity } from '../quantity.js'

/** The end of all tolerances at which the decay is slow (`high`) or fast (`low`). */
export type DecayEnd = keyof Interval

interface LawFacts {
  readonly dimension: Dimension
  readonly title: string
  /** Where the level begins, in the SI unit. */
  readonly start: Interval
  /** The safe level, in the same reference as the start. */
  readonly safe: number
}

/** How a level falls: as a level for a time, or, where only that is known, as a time for a level. */
export type DecayLaw = LawFacts &
  (
    | { readonly gives: 'level'; readonly levelAt: (seconds: number, end: DecayEnd) => number }
    | { readonly gives: 'time'; readonly timeTo: (level: number, end: DecayEnd) => number }
  )

/** The law of each kind; undefined where parameters are missing or nothing decays. */
export function decayLaw(parameters: EnergyParameters): DecayLaw | undefined {
  const safe = safeBelow(parameters)
  if (safe === undefined) return undefined
  switch (parameters.kind) {
    case 'capacitor':
      return capacitorLaw(parameters, safe)
    case 'magnet':
      return magnetLaw(parameters, safe)
    case 'rotating':
      return coastingLaw(parameters, safe)
    case 'thermal':
      return coolingLaw(parameters, safe)
    case 'gas':
      return ventingLaw(parameters, safe)
    case 'liquid':
      return columnLaw(parameters, safe)
    case 'electrical':
    case 'battery':
    case 'gravity':
    case 'spring':
    case 'other':
      return undefined
  }
}

const opposite = (end: DecayEnd): DecayEnd => (end === 'high' ? 'low' : 'high')

/** The intervals of the parameters named; undefined where one is missing. */
function intervals<Name extends string>(
  { quantities }: EnergyParameters,
  ...names: readonly Name[]
): Readonly<Record<Name, Interval>> | undefined {
  const found: Partial<Record<Name, Interval>> = {}
  for (const name of names) {
    const interval = quantities[name]?.interval
    if (interval === undefined) return undefined
    found[name] = interval
  }
  return found as Readonly<Record<Name, Interval>>
}

function capacitorLaw(parameters: EnergyParameters, safe: Quantity): DecayLaw | undefined {
  const voltage = parameters.quantities['voltage']?.interval
  const bank = intervals(parameters, 'balancing', 'parallel', 'element-capacitance')
  const single = intervals(parameters, 'bleed', 'capacitance')
  if (voltage === undefined) return undefined
  const factor = storedVoltFactor(parameters)
  const start = { low: voltage.low * factor, high: voltage.high * factor }
  const constant = (end: DecayEnd): number | undefined => {
    if (bank !== undefined) return bank.balancing[end] * bank.parallel[end] * bank['element-capacitance'][end]
    return single === undefined ? undefined : single.bleed[end] * single.capacitance[end]
  }
  const [slow, fast] = [constant('high'), constant('low')]
  if (slow === undefined || fast === undefined) return undefined
  return {
    gives: 'level',
    dimension: 'voltage',
    title: 'Voltage',
    start,
    safe: safe.interval.low,
    levelAt: (seconds, end) => levelAfter(seconds, end === 'high' ? slow : fast, start[end])
  }
}

function magnetLaw(parameters: EnergyParameters, safe: Quantity): DecayLaw | undefined {
  const found = intervals(parameters, 'inductance', 'resistance', 'current')
  // Plotted as a current: where the safe level is an energy there is no line to draw for it.
  if (found === undefined || safe.dimension !== 'current') return undefined
  const { inductance, resistance, current } = found
  return {
    gives: 'level',
    dimension: 'current',
    title: 'Current',
    start: current,
    safe: safe.interval.low,
    levelAt: (seconds, end) => levelAfter(seconds, inductance[end] / resistance[opposite(end)], current[end])
  }
}

/** A straight line: constant torque, or the mean torque of a measured coast-down, whichever is slower. */
function coastingLaw(parameters: EnergyParameters, safe: Quantity): DecayLaw | undefined {
  const speed = parameters.quantities['speed']?.interval
  const measured = parameters.quantities['coast-down']?.interval
  const friction = intervals(parameters, 'friction-torque', 'inertia')
  if (speed === undefined) return undefined
  const fall = (end: DecayEnd): number =>
    Math.min(
      measured === undefined ? Number.POSITIVE_INFINITY : speed[end] / measured[end],
      friction === undefined
        ? Number.POSITIVE_INFINITY
        : friction['friction-torque'][opposite(end)] / friction.inertia[end]
    )
  return {
    gives: 'level',
    dimension: 'angular-speed',
    title: 'Speed',
    start: speed,
    safe: safe.interval.low,
    levelAt: (seconds, end) => Math.max(0, speed[end] - fall(end) * seconds)
  }
}

function coolingLaw(parameters: EnergyParameters, safe: Quantity): DecayLaw | undefined {
  const found = intervals(parameters, 'temperature', 'ambient', 'time-constant')
  if (found === undefined) return undefined
  const { temperature, ambient, 'time-constant': constant } = found
  return {
    gives: 'level',
    dimension: 'temperature',
    title: 'Temperature',
    start: temperature,
    safe: safe.interval.low,
    levelAt: (seconds, end) => levelAfter(seconds, constant[end], temperature[end], ambient[end])
  }
}

function ventingLaw(parameters: EnergyParameters, safe: Quantity): DecayLaw | undefined {
  const found = intervals(parameters, 'pressure', 'volume', 'temperature', 'bleed-bore', 'discharge-coefficient')
  const gasConstant = gasConstantOf(parameters)
  if (found === undefined || gasConstant === undefined) return undefined
  const outside = atmosphereOf(parameters).value
  const above = (pressure: Quantity | undefined): number => (pressure?.reference === 'absolute' ? outside : 0)
  const shift = above(parameters.quantities['pressure'])
  const start = { low: found.pressure.low - shift, high: found.pressure.high - shift }
  return {
    gives: 'time',
    dimension: 'pressure',
    title: 'Pressure above ambient',
    start,
    safe: safe.interval.low - above(safe),
    timeTo: (level, end) => {
      const vessel = {
        volume: found.volume[end],
        area: (Math.PI / 4) * found['bleed-bore'][opposite(end)] ** 2,
        dischargeCoefficient: found['discharge-coefficient'][opposite(end)],
        heatRatio: heatRatioOf(parameters).value,
        gasConstant: gasConstant.value,
        temperature: found.temperature[opposite(end)]
      }
      const pressures = { from: start[end] + outside, to: level + outside, outside }
      const times = [ventingTime(vessel, pressures, 'isothermal'), ventingTime(vessel, pressures, 'adiabatic')]
      return end === 'high' ? Math.max(...times) : Math.min(...times)
    }
  }
}

/** A draining column: the root of the height falls evenly, and the pressure with the height. */
function columnLaw(parameters: EnergyParameters, safe: Quantity): DecayLaw | undefined {
  const found = intervals(parameters, 'pressure', 'volume', 'column-height', 'bleed-bore', 'discharge-coefficient')
  if (found === undefined) return undefined
  const emptyAfter = (end: DecayEnd): number =>
    columnDrainTime(
      {
        volume: found.volume[end],
        height: found['column-height'][opposite(end)],
        area: (Math.PI / 4) * found['bleed-bore'][opposite(end)] ** 2,
        dischargeCoefficient: found['discharge-coefficient'][opposite(end)]
      },
      0
    )
  return {
    gives: 'level',
    dimension: 'pressure',
    title: 'Pressure above ambient',
    start: found.pressure,
    safe: safe.interval.low,
    levelAt: (seconds, end) => found.pressure[end] * Math.max(0, 1 - seconds / emptyAfter(end)) ** 2
  }
}
