/*
 * ASME PCC-2 article 501, appendices 501-II and 501-III, read at second hand (a calculator page that quotes the
 * equations): the figures for a pneumatic pressure test.
 */

/** Atmosphere that equation II-2 takes, Pa absolute. */
export const pccAtmosphere = 101_000
/** Heat of explosion of TNT in equation II-3, J/kg. */
export const pccTntHeat = 4_266_920
/** Smallest scaled consequence factor of equation III-1, m/kg^(1/3). */
export const pccScaledDistance = 20
/** Above this energy, in joules, PCC-2 asks for the larger distance floor. */
export const pccLowerEnergy = 135_500_000
/** Above this energy, in joules, no floor is given and (from memory) the test is to be split into sections. */
export const pccUpperEnergy = 271_000_000

/** Equation II-2, air or nitrogen: E = 2.5·Pt·V·(1 − (Pa/Pt)^0.286), absolute pressures. */
export function pccEnergy(inside: number, volume: number, outside = pccAtmosphere): number {
  return inside <= outside ? 0 : 2.5 * inside * volume * -Math.expm1(0.286 * Math.log(outside / inside))
}

/**
 * Heats of explosion of TNT that are in print, J/kg. They differ by a ninth, so a figure in kilograms of TNT means
 * nothing without its constant. (A forum post that gives 5788 kJ a pound is wrong by a factor of 2.8 and left out.)
 */
export const tntHeats = {
  pcc2: { joulesPerKilogram: pccTntHeat, source: 'ASME PCC-2 article 501, equation II-3, at second hand' },
  convention: { joulesPerKilogram: 4_184_000, source: 'convention of a gram of TNT as 1000 calories, from memory' },
  laboratory: { joulesPerKilogram: 4_620_000, source: 'a university page on stored energy of pressurised gas vessels' }
} as const

/** Kilograms of TNT with the same energy. */
export function tntEquivalent(joules: number, joulesPerKilogram: number = pccTntHeat): number {
  return joules / joulesPerKilogram
}

/** Equation III-1: R = Rs·(2·TNT)^(1/3), metres. */
export function scaledDistance(tnt: number, factor = pccScaledDistance): number {
  return factor * Math.cbrt(2 * tnt)
}

/** Distance in metres with the floors of PCC-2: 30 m up to 135.5 MJ, 60 m up to 271 MJ, above that equation III-1 alone. */
export function pccDistance(joules: number, factor = pccScaledDistance): number {
  const distance = scaledDistance(tntEquivalent(joules), factor)
  if (joules > pccUpperEnergy) return distance
  return Math.max(joules > pccLowerEnergy ? 60 : 30, distance)
}
