import type { Dimension } from './quantity.js'

/** Powers of metre, kilogram, second, ampere and kelvin. */
type Exponents = readonly [metre: number, kilogram: number, second: number, ampere: number, kelvin: number]

interface DimensionFacts {
  /** In a sentence: "is a voltage". */
  readonly phrase: string
  /** The coherent SI unit in which `Quantity.si` counts. */
  readonly unit: string
  readonly exponents: Exponents
}

/** Exponents after the SI Brochure (BIPM, 9th edition), tables 4 and 5. */
export const dimensionFacts: Readonly<Record<Dimension, DimensionFacts>> = {
  voltage: { phrase: 'a voltage', unit: 'V', exponents: [2, 1, -3, -1, 0] },
  current: { phrase: 'a current', unit: 'A', exponents: [0, 0, 0, 1, 0] },
  capacitance: { phrase: 'a capacitance', unit: 'F', exponents: [-2, -1, 4, 2, 0] },
  resistance: { phrase: 'a resistance', unit: 'Ω', exponents: [2, 1, -3, -2, 0] },
  inductance: { phrase: 'an inductance', unit: 'H', exponents: [2, 1, -2, -2, 0] },
  charge: { phrase: 'a charge', unit: 'C', exponents: [0, 0, 1, 1, 0] },
  power: { phrase: 'a power', unit: 'W', exponents: [2, 1, -3, 0, 0] },
  energy: { phrase: 'an energy', unit: 'J', exponents: [2, 1, -2, 0, 0] },
  time: { phrase: 'a time', unit: 's', exponents: [0, 0, 1, 0, 0] },
  pressure: { phrase: 'a pressure', unit: 'Pa', exponents: [-1, 1, -2, 0, 0] },
  volume: { phrase: 'a volume', unit: 'm³', exponents: [3, 0, 0, 0, 0] },
  length: { phrase: 'a length', unit: 'm', exponents: [1, 0, 0, 0, 0] },
  mass: { phrase: 'a mass', unit: 'kg', exponents: [0, 1, 0, 0, 0] },
  inertia: { phrase: 'a moment of inertia', unit: 'kg·m²', exponents: [2, 1, 0, 0, 0] },
  'angular-speed': { phrase: 'a speed of rotation', unit: 'rad/s', exponents: [0, 0, -1, 0, 0] },
  torque: { phrase: 'a torque', unit: 'N·m', exponents: [2, 1, -2, 0, 0] },
  force: { phrase: 'a force', unit: 'N', exponents: [1, 1, -2, 0, 0] },
  'force-per-length': { phrase: 'a spring rate', unit: 'N/m', exponents: [0, 1, -2, 0, 0] },
  temperature: { phrase: 'a temperature', unit: 'K', exponents: [0, 0, 0, 0, 1] },
  area: { phrase: 'an area', unit: 'm²', exponents: [2, 0, 0, 0, 0] },
  frequency: { phrase: 'a frequency', unit: 'Hz', exponents: [0, 0, -1, 0, 0] },
  flow: { phrase: 'a flow', unit: 'm³/s', exponents: [3, 0, -1, 0, 0] },
  speed: { phrase: 'a speed', unit: 'm/s', exponents: [1, 0, -1, 0, 0] },
  number: { phrase: 'a share or a count', unit: '', exponents: [0, 0, 0, 0, 0] }
}

/** True where two different dimensions are counted in the same base units, as torque and energy are. */
export function lookAlike(left: Dimension, right: Dimension): boolean {
  const others = dimensionFacts[right].exponents
  return left !== right && dimensionFacts[left].exponents.every((exponent, index) => exponent === others[index])
}
