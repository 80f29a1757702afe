/** Conventional standard acceleration of free fall, exact (CGPM 1901), m/s². */
export const standardGravity = 9.80665

/** Joules of kg·m² at rad/s: E = ½·I·ω² (OpenStax College Physics, module m42180). */
export function rotatingEnergy(inertia: number, speed: number): number {
  return 0.5 * inertia * speed ** 2
}

/** Seconds from one speed (rad/s) to another against a constant torque (N·m): t = I·(ω0 − ω)/M. */
export function coastTime(inertia: number, from: number, to: number, torque: number): number {
  return from <= to ? 0 : (inertia * (from - to)) / torque
}

/** Revolutions until a constant torque has taken up the energy: N = E/(2π·M). */
export function coastRevolutions(energy: number, torque: number): number {
  return energy / (2 * Math.PI * torque)
}

/** Joules of kilograms lifted by metres: E = m·g·h (OpenStax College Physics, module m42152). */
export function gravityEnergy(mass: number, height: number, gravity = standardGravity): number {
  return mass * gravity * height
}

/** Joules of a spring of N/m strained by metres from its unloaded length: E = ½·k·x² (OpenStax University Physics, m58312). */
export function springEnergy(rate: number, deflection: number): number {
  return 0.5 * rate * deflection ** 2
}

/** Moments of inertia in kg·m² (OpenStax College Physics, module m42179, from memory; the values of m42180 agree). */
export const momentOfInertia = {
  /** Solid disk or cylinder about its axis. */
  disk: (mass: number, radius: number): number => 0.5 * mass * radius ** 2,
  /** Thin ring about its axis. */
  ring: (mass: number, radius: number): number => mass * radius ** 2,
  /** Thin rod about one end. */
  rodAboutEnd: (mass: number, length: number): number => (mass * length ** 2) / 3,
  /** Thin rod about its middle. */
  rodAboutMiddle: (mass: number, length: number): number => (mass * length ** 2) / 12
} as const
