import type { MeasurementCategory, Quantity } from '@lockwright/energy'

/** A span of days in which an instrument counts as in calibration, both included, in UTC. */
export interface Calibration {
  /** `YYYY-MM-DD` */
  readonly from: string
  /** `YYYY-MM-DD` */
  readonly until: string
  /** Number of the certificate; null where none was given. */
  readonly certificate: string | null
}

/** Up to which voltage an instrument may be used in a circuit of a category; most bear two of these (IEC 61010-2-030). */
export interface InstrumentRating {
  readonly category: MeasurementCategory
  readonly upTo: Quantity
}

/** How far a reading may lie from the true value: the parts add up. */
export interface Accuracy {
  /** Percent of the reading. */
  readonly ofReading: number
  /** Percent of the upper end of the range. */
  readonly ofRange: number
  /** A fixed part, such as `2 V`; null: none. */
  readonly plus: Quantity | null
}

/** One tester or gauge, by the number that stands on it. */
export interface Instrument {
  readonly id: string
  /** The maker's number, as it is engraved. */
  readonly serial: string
  readonly name: string
  /** As a `::tool` says it: `voltage`, `pressure`, `speed`, `temperature` ... */
  readonly measures: string
  /** Electrical; none for a gauge. */
  readonly ratings: readonly InstrumentRating[]
  /** What it can show; null where not said. */
  readonly range: { readonly low: Quantity; readonly high: Quantity } | null
  /** Null: not declared, and readings count as they stand. */
  readonly accuracy: Accuracy | null
  /** Oldest first. None is taken away, so that old records can be judged. */
  readonly calibrations: readonly Calibration[]
  /** From the start of this day on nothing that it shows counts; null: in use. */
  readonly withdrawn: { readonly from: string; readonly why: string } | null
}

/** `instruments.yaml`, once its signature was found good. */
export interface Instruments {
  readonly site: string
  /** Rises by one with each change. */
  readonly serial: number
  readonly signedAt: string
  readonly instruments: readonly Instrument[]
}

export function instrumentOf({ instruments }: Instruments, id: string): Instrument | null {
  return instruments.find((one) => one.id === id) ?? null
}

/** Whether the instrument was in calibration on the day of that time (RFC 3339). */
export function calibratedAt({ calibrations }: Instrument, at: string): boolean {
  const day = at.slice(0, 10)
  return calibrations.some(({ from, until }) => from <= day && day <= until)
}

/** Whether it had been taken out of use by that time (RFC 3339). */
export function withdrawnAt({ withdrawn }: Instrument, at: string): boolean {
  return withdrawn !== null && withdrawn.from <= at.slice(0, 10)
}
