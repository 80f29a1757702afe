/** What a quantity measures. Torque is not energy and gauge pressure is not absolute pressure. */
export type Dimension =
  | 'voltage'
  | 'current'
  | 'capacitance'
  | 'resistance'
  | 'inductance'
  | 'charge'
  | 'power'
  | 'energy'
  | 'time'
  | 'pressure'
  | 'volume'
  | 'length'
  | 'mass'
  | 'inertia'
  | 'angular-speed'
  | 'torque'
  | 'force'
  | 'force-per-length'
  | 'temperature'
  | 'area'
  | 'frequency'
  | 'flow'
  | 'speed'
  | 'number'

/**
 * A number with its unit and tolerance, as written and in SI base units.
 * Its worst case is `interval.high`, value times (1 + tolerance); temperatures are in kelvin, pressures in pascal
 * (above the ambient pressure where `reference` is `gauge`).
 */
export interface Quantity {
  /** Exactly as the author wrote it. */
  readonly written: string
  readonly value: number
  /** The unit's own symbol, whatever spelling the author chose: `kg·m²` for `kg m2`. */
  readonly unit: string
  readonly dimension: Dimension
  /** Electrical: alternating or direct; absent where not said. */
  readonly current?: 'ac' | 'dc'
  /** Pressure: gauge unless the unit says otherwise. */
  readonly reference?: 'gauge' | 'absolute'
  /** Fraction, 0.2 for ± 20 %; 0 where none is written. */
  readonly tolerance: number
  /** In the coherent SI unit of its dimension. */
  readonly si: number
  /** Lower and upper end in the coherent SI unit. */
  readonly interval: { readonly low: number; readonly high: number }
}
