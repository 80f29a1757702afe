/** Where in an installation a tester may be used, by how hard a surge there can be. IEC 61010-2-030. */
export type MeasurementCategory = 'II' | 'III' | 'IV'

/** What stands on a tester or a lead; most bear two, such as CAT III 1000 V and CAT IV 600 V. */
export interface TesterRating {
  readonly category: MeasurementCategory
  /** Highest voltage to earth, rms or direct. */
  readonly volts: number
}

export interface MeasurementStep {
  /** Highest voltage line to neutral, rms or direct. */
  readonly volts: number
  readonly impulse: Readonly<Record<MeasurementCategory, number>>
  /** Alternating test voltage for five seconds. */
  readonly test: Readonly<Record<MeasurementCategory, number>>
}

/** IEC 61010-2-030:2010, as an instrument maker's manual prints it; volts. */
export const measurementSteps: readonly MeasurementStep[] = [
  { volts: 150, impulse: { II: 1550, III: 2500, IV: 4000 }, test: { II: 840, III: 1390, IV: 2210 } },
  { volts: 300, impulse: { II: 2500, III: 4000, IV: 6000 }, test: { II: 1390, III: 2210, IV: 3310 } },
  { volts: 600, impulse: { II: 4000, III: 6000, IV: 8000 }, test: { II: 2210, III: 3310, IV: 4260 } },
  { volts: 1000, impulse: { II: 6000, III: 8000, IV: 12_000 }, test: { II: 3310, III: 4260, IV: 6600 } }
]

/** Source impedance of the impulse, ohms; from a page on the measuring standard. */
export const impulseImpedance: Readonly<Record<MeasurementCategory, number>> = { II: 12, III: 2, IV: 2 }

const rank: Readonly<Record<MeasurementCategory, number>> = { II: 2, III: 3, IV: 4 }

/** Impulse that a rating withstands; undefined above the last step of the table. */
export function impulseVolts({ category, volts }: TesterRating): number | undefined {
  return measurementSteps.find((step) => step.volts >= volts)?.impulse[category]
}

/**
 * How two ratings stand to each other. CAT III 1000 V and CAT IV 600 V are not ordered: one has the higher voltage,
 * the other the higher category, and both withstand the same 8 kV impulse.
 */
export function compareRatings(one: TesterRating, other: TesterRating): 'same' | 'stronger' | 'weaker' | 'not-ordered' {
  const byCategory = Math.sign(rank[one.category] - rank[other.category])
  const byVolts = Math.sign(one.volts - other.volts)
  if (byCategory === 0 && byVolts === 0) return 'same'
  if (byCategory >= 0 && byVolts >= 0) return 'stronger'
  return byCategory <= 0 && byVolts <= 0 ? 'weaker' : 'not-ordered'
}

/**
 * Whether a tester with its leads may be used on a circuit: one rating of each has both the category and the voltage
 * to earth, and the weakest part governs. (The combination is from memory; its halves are read: see `measurementSteps`.)
 */
export function testerFits(parts: readonly (readonly TesterRating[])[], circuit: TesterRating): boolean {
  return (
    parts.length > 0 &&
    parts.every((ratings) =>
      ratings.some(({ category, volts }) => rank[category] >= rank[circuit.category] && volts >= circuit.volts)
    )
  )
}
