import { integrate } from './integrate.js'

/** Reference atmosphere of ISO 6358, Pa absolute (from memory). */
const referencePressure = 100_000

/**
 * Seconds for a vessel at 20 °C to vent through a pneumatic component of sonic conductance C, in m³/(s·Pa), and
 * critical pressure ratio b, at constant temperature; absolute pressures in Pa. The flow model is ISO 6358, from memory:
 * choked C·p·ρ0, below that times √(1 − ((r − b)/(1 − b))²) at the pressure ratio r.
 */
export function conductanceVentingTime(
  { volume, conductance, criticalRatio }: VentingComponent,
  { from, to, outside }: { readonly from: number; readonly to: number; readonly outside: number }
): number {
  if (from <= to) return 0
  if (to < outside) return Number.POSITIVE_INFINITY
  const timeConstant = volume / (conductance * referencePressure)
  const choking = outside / criticalRatio
  const choked = from > choking ? Math.log(from / Math.max(to, choking)) : 0
  const tailStart = Math.min(from, choking)
  if (to >= tailStart) return timeConstant * choked
  const rootOf = (pressure: number): number => Math.sqrt(Math.max(0, pressure / outside - 1))
  // With u = √(p/pa − 1): 1 − r = u²/(1 + u²), and 1 − ((r−b)/(1−b))² = w·(2 − w) with w = (1 − r)/(1 − b).
  const slowing = (u: number): number => {
    const w = (u * u) / ((1 + u * u) * (1 - criticalRatio))
    return (2 * u) / ((1 + u * u) * Math.sqrt(w * (2 - w)))
  }
  return timeConstant * (choked + integrate(slowing, rootOf(to), rootOf(tailStart)))
}

export interface VentingComponent {
  readonly volume: number
  readonly conductance: number
  readonly criticalRatio: number
}
