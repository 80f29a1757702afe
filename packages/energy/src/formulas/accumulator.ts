/*
 * Gas side of a hydraulic accumulator, P·Vⁿ constant; absolute pressures in Pa, volumes in m³. n is 1 where the oil
 * moves slowly and 1.4 where it moves fast (a supplier's rule: slow is longer than three minutes).
 */

/** Gas volume at a pressure: V = V0·(P0/P)^(1/n). At or below the precharge the gas fills the vessel. */
export function accumulatorGasVolume(vessel: number, precharge: number, pressure: number, exponent: number): number {
  return pressure <= precharge ? vessel : vessel * (precharge / pressure) ** (1 / exponent)
}

/** Oil in the vessel at a pressure. */
export function accumulatorOilVolume(vessel: number, precharge: number, pressure: number, exponent: number): number {
  return vessel - accumulatorGasVolume(vessel, precharge, pressure, exponent)
}

/** Joules that the gas gives up until its pressure is back at the precharge, the last oil gone. */
export function accumulatorOilEnergy(vessel: number, precharge: number, pressure: number, exponent: number): number {
  if (pressure <= precharge) return 0
  if (exponent === 1) return precharge * vessel * Math.log(pressure / precharge)
  const gas = accumulatorGasVolume(vessel, precharge, pressure, exponent)
  return (pressure * gas - precharge * vessel) / (exponent - 1)
}

/** The precharge at which that energy is largest: with less there is less gas, with more there is less oil. */
export function worstPrecharge(pressure: number, exponent: number): number {
  return exponent === 1 ? pressure / Math.E : pressure * exponent ** (-exponent / (exponent - 1))
}
