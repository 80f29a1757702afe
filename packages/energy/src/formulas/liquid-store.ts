import { standardGravity } from './mechanical-store.js'

/** Joules of a shut-in liquid that its pressure (Pa above ambient) has squeezed: E = ½·p²·V/K, K the bulk modulus in Pa. */
export function compressedLiquidEnergy(volume: number, pressure: number, bulkModulus: number): number {
  return (0.5 * pressure ** 2 * volume) / bulkModulus
}

/** Joules of an upright column of m³ that stands with Pa at its foot: E = ½·p·V, its middle being at half its height. */
export function columnEnergy(volume: number, pressure: number): number {
  return 0.5 * pressure * volume
}

/**
 * Seconds for an upright column of even width to run down from one height (m) to another through a hole at its foot:
 * t = (V/h)/(Cd·A)·√(2/g)·(√h − √h1), after Torricelli.
 */
export function columnDrainTime(
  { volume, height, area, dischargeCoefficient }: DrainingColumn,
  remaining: number
): number {
  if (height <= remaining) return 0
  const width = volume / height
  const roots = Math.sqrt(height) - Math.sqrt(remaining)
  return (width / (dischargeCoefficient * area)) * Math.sqrt(2 / standardGravity) * roots
}

export interface DrainingColumn {
  /** Liquid in the column, m³. */
  readonly volume: number
  readonly height: number
  /** Of the hole, m². */
  readonly area: number
  readonly dischargeCoefficient: number
}
