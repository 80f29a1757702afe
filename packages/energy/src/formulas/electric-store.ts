/** Joules in farads at volts: E = ½·C·V² (OpenStax College Physics, module m42395). */
export function capacitorEnergy(capacitance: number, voltage: number): number {
  return 0.5 * capacitance * voltage ** 2
}

/** Coulombs on farads at volts: Q = C·V (OpenStax College Physics, module m42395). */
export function capacitorCharge(capacitance: number, voltage: number): number {
  return capacitance * voltage
}

/**
 * Ohms that bring a capacitor from the crest of its rated alternating voltage to a residual one in the seconds given:
 * R = t/(k·C·ln(√2·Un/Ur)); k is 1 for three resistors in delta, 3 for two in V connection ("Discharge resistors
 * TS 03-010I", after the old IEC 831).
 */
export function dischargeResistance(
  seconds: number,
  capacitance: number,
  ratedVolts: number,
  residualVolts: number,
  k: 1 | 3 = 1
): number {
  return seconds / (k * capacitance * Math.log((Math.SQRT2 * ratedVolts) / residualVolts))
}

/** Joules in henries at amperes: E = ½·L·I² (OpenStax College Physics, module m42420). */
export function magnetEnergy(inductance: number, current: number): number {
  return 0.5 * inductance * current ** 2
}

/** Joules of a charge (coulombs) that is delivered at a constant voltage: E = V·Q (OpenStax College Physics, m42324, from memory). */
export function batteryEnergy(voltage: number, charge: number): number {
  return voltage * charge
}
