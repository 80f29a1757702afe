/**
 * Seconds: τ = m·c/(h·A) for a body that cools evenly (kg, J/(kg·K), W/(m²·K), m²); holds while the Biot number is
 * below 0.1 (rule from memory).
 */
export function coolingTimeConstant(mass: number, specificHeat: number, transfer: number, area: number): number {
  return (mass * specificHeat) / (transfer * area)
}

/** Bi = h·L/λ, with L the volume over the surface (m) and λ the conductivity of the body, W/(m·K). */
export function biotNumber(transfer: number, length: number, conductivity: number): number {
  return (transfer * length) / conductivity
}
