import { integrate } from './integrate.js'

/** A vessel of ideal gas that vents through a hole. SI units; `heatRatio` is γ, `gasConstant` is of the gas, J/(kg·K). */
export interface VentingVessel {
  readonly volume: number
  /** Area of the hole, m². */
  readonly area: number
  readonly dischargeCoefficient: number
  readonly heatRatio: number
  readonly gasConstant: number
  /** Of the gas at the start, K. */
  readonly temperature: number
}

/** Isothermal: the vessel warms the gas as fast as it cools. Adiabatic: it does not at all. The truth lies between. */
export type VentingProcess = 'isothermal' | 'adiabatic'

/** Downstream over upstream pressure at and below which the flow is choked: 0.528 for air. */
export function criticalRatio(heatRatio: number): number {
  return (2 / (heatRatio + 1)) ** (heatRatio / (heatRatio - 1))
}

function flowFactor(heatRatio: number): number {
  return (2 / (heatRatio + 1)) ** ((heatRatio + 1) / (2 * (heatRatio - 1)))
}

function soundSpeed({ heatRatio, gasConstant, temperature }: VentingVessel): number {
  return Math.sqrt(heatRatio * gasConstant * temperature)
}

/** kg/s through the hole while the flow is choked, at the starting temperature and an absolute pressure in Pa. */
export function chokedMassFlow(vessel: VentingVessel, inside: number): number {
  const { area, dischargeCoefficient, heatRatio, gasConstant, temperature } = vessel
  const density = Math.sqrt(heatRatio / (gasConstant * temperature))
  return dischargeCoefficient * area * inside * density * flowFactor(heatRatio)
}

/** Seconds: τ = V/(Cd·A·a0·f) with a0 = √(γ·R·T0) and f = (2/(γ+1))^((γ+1)/(2(γ−1))). */
export function ventingTimeConstant(vessel: VentingVessel): number {
  const { volume, area, dischargeCoefficient, heatRatio } = vessel
  return volume / (dischargeCoefficient * area * soundSpeed(vessel) * flowFactor(heatRatio))
}

/**
 * Seconds from one absolute pressure to another, into surroundings at an absolute pressure: choked first, in closed
 * form, then the subsonic tail by quadrature. Ambient pressure itself is reached in a finite time; below it, never.
 * After a process-engineering text on vessel blow-down of ideal gases (CC BY-SA 4.0, its formulas as facts).
 */
export function ventingTime(
  vessel: VentingVessel,
  { from, to, outside }: { readonly from: number; readonly to: number; readonly outside: number },
  process: VentingProcess
): number {
  if (from <= to) return 0
  if (to < outside) return Number.POSITIVE_INFINITY
  const timeConstant = ventingTimeConstant(vessel)
  if (!Number.isFinite(timeConstant)) return Number.POSITIVE_INFINITY
  const choking = outside / criticalRatio(vessel.heatRatio)
  const choked = chokedTime(timeConstant, from / Math.max(to, choking), vessel.heatRatio, process)
  const tailStart = Math.min(from, choking)
  return to >= tailStart ? choked : choked + tailTime(timeConstant, { from, tailStart, to, outside }, vessel, process)
}

function chokedTime(timeConstant: number, ratio: number, heatRatio: number, process: VentingProcess): number {
  if (ratio <= 1) return 0
  if (process === 'isothermal') return timeConstant * Math.log(ratio)
  const exponent = (heatRatio - 1) / (2 * heatRatio)
  return ((2 * timeConstant) / (heatRatio - 1)) * Math.expm1(exponent * Math.log(ratio))
}

/**
 * The flow dies away as the root of the pressure difference, so the integrand has a pole at ambient that can be
 * integrated: with u = √(P/Pa − 1) in place of P it is smooth.
 */
function tailTime(
  timeConstant: number,
  pressures: { readonly from: number; readonly tailStart: number; readonly to: number; readonly outside: number },
  { heatRatio }: VentingVessel,
  process: VentingProcess
): number {
  const { from, tailStart, to, outside } = pressures
  const power = (heatRatio - 1) / heatRatio
  const factor = flowFactor(heatRatio)
  const slowing = (u: number): number => {
    const logarithm = Math.log1p(u * u)
    // Flow over choked flow at the same pressure and temperature.
    const share =
      Math.sqrt((2 / (heatRatio - 1)) * Math.exp((-2 / heatRatio) * logarithm) * -Math.expm1(-power * logarithm)) /
      factor
    const perLogarithm = (2 * u) / ((1 + u * u) * share)
    if (process === 'isothermal') return perLogarithm
    // The gas has cooled on the way down from the very start, and cold gas is slower and denser.
    return perLogarithm / (heatRatio * (((1 + u * u) * outside) / from) ** (power / 2))
  }
  const rootOf = (pressure: number): number => Math.sqrt(Math.max(0, pressure / outside - 1))
  return timeConstant * integrate(slowing, rootOf(to), rootOf(tailStart))
}
