/**
 * Two-sided 95 % quantiles of Student's distribution for 1 to 30 degrees of freedom, from memory and checked by
 * quadrature in the tests.
 */
const quantiles = [
  12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228, 2.201, 2.179, 2.16, 2.145, 2.131, 2.12, 2.11,
  2.101, 2.093, 2.086, 2.08, 2.074, 2.069, 2.064, 2.06, 2.056, 2.052, 2.048, 2.045, 2.042
] as const

/** Above 30 degrees of freedom the last value is kept: it is a little too wide, never too narrow. */
export function studentQuantile(degrees: number): number {
  return quantiles[Math.min(Math.max(1, Math.floor(degrees)), quantiles.length) - 1] ?? quantiles[0]
}
