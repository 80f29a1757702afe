/*
 * Energy of a compressed gas that expands to its surroundings. Pressures are absolute, in pascal, volumes in cubic
 * metres, results in joules; a gas at or below the pressure around it gives nothing up.
 */

/** Standard atmosphere, exact (CGPM 1954), Pa. */
export const standardAtmosphere = 101_325

/** P2·V/(γ−1)·(1 − (P1/P2)^((γ−1)/γ)): fast, with no heat exchanged (Understanding Explosions, appendix B). */
export function isentropicEnergy(inside: number, volume: number, outside: number, heatRatio: number): number {
  if (inside <= outside) return 0
  const left = -Math.expm1(((heatRatio - 1) / heatRatio) * Math.log(outside / inside))
  return ((inside * volume) / (heatRatio - 1)) * left
}

/** (P2 − P1)·V/(γ−1): heating at constant volume, after Brode (Understanding Explosions, appendix B). */
export function brodeEnergy(inside: number, volume: number, outside: number, heatRatio: number): number {
  return inside <= outside ? 0 : ((inside - outside) * volume) / (heatRatio - 1)
}

/** P2·V·ln(P2/P1): slow, at constant temperature; the upper bound of the work of any ideal gas (a page on energy in pressure vessels). */
export function isothermalEnergy(inside: number, volume: number, outside: number): number {
  return inside <= outside ? 0 : inside * volume * Math.log(inside / outside)
}

/** P2·V·(ln(P2/P1) − (1 − P1/P2)): the isothermal work less what pushes the surroundings away. */
export function availabilityEnergy(inside: number, volume: number, outside: number): number {
  return inside <= outside ? 0 : inside * volume * (Math.log(inside / outside) - (1 - outside / inside))
}
