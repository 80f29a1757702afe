import type { GasName } from './formulas/gases.js'
import { parseQuantity } from './parse-quantity.js'
import type { Quantity } from './quantity.js'

/** The kinds of energy source, spelled as in the front matter of a procedure. */
export type EnergyKind =
  | 'electrical'
  | 'capacitor'
  | 'battery'
  | 'magnet'
  | 'rotating'
  | 'gravity'
  | 'spring'
  | 'gas'
  | 'liquid'
  | 'thermal'
  | 'other'

/** What is known of one energy source. A source of a procedure fits as it is. */
export interface EnergyParameters {
  readonly kind: EnergyKind
  /** By the names of the front matter, and those that go beyond it: see `parameterFacts`. */
  readonly quantities: Readonly<Partial<Record<string, Quantity>>>
  /** Which gas it is; no key of the front matter. */
  readonly gas?: GasName
  /** Thermal: what the hot surface is made of, and for how long it may be touched, as the front matter words them. */
  readonly surface?: string
  readonly contact?: string
}

function fixed(text: string): Quantity {
  const parsed = parseQuantity(text)
  // The texts stand below; one that cannot be read is a fault of this file.
  if (!parsed.ok) throw new Error(parsed.why)
  return parsed.value
}

const fiftyVolts = fixed('50 V')
const tenthOfABar = fixed('0.1 bar')
const standstill = fixed('0 rpm')
const touchable = fixed('48 °C')

/**
 * The level below which a source counts as safe: what is declared, else the language's default for its kind
 * (50 V after 29 CFR 1910.303(g)(2)(i); 48 °C after ISO 13732-1 for ten minutes' contact, from memory;
 * 0.1 bar and standstill are common practice, no source). Undefined for kinds without a default.
 */
export function safeBelow({ kind, quantities }: EnergyParameters): Quantity | undefined {
  const declared = quantities['safe-below']
  if (declared !== undefined) return declared
  switch (kind) {
    case 'electrical':
    case 'capacitor':
    case 'battery':
      return fiftyVolts
    case 'gas':
    case 'liquid':
      return tenthOfABar
    case 'rotating':
      return standstill
    case 'thermal':
      return touchable
    case 'magnet':
    case 'gravity':
    case 'spring':
    case 'other':
      return undefined
  }
}
