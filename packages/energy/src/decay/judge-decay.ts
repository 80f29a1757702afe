import { slowestVentingConstant } from '../calculations/gas-venting.js'
import { type EnergyParameters, safeBelow } from '../energy-parameters.js'
import { formatDuration } from '../format-quantity.js'
import { tellLevel } from '../level-unit.js'
import type { Quantity } from '../quantity.js'
import {
  type DecayFit,
  type DecayModel,
  type DecayReading,
  type DecaySign,
  fitDecay,
  type ReadingAccuracy
} from './fit-decay.js'

export interface DecayObservation {
  /** Levels in the SI unit of the source's safe level; gauge pressures in Pa, temperatures in K. */
  readonly readings: readonly DecayReading[]
  readonly accuracy?: ReadingAccuracy
  readonly shortedAt?: readonly number[]
}

export type JudgedDecay =
  | {
      readonly kind: 'judged'
      readonly fit: DecayFit
      readonly model: DecayModel
      /** The safe level, in the SI unit. */
      readonly safe: number
      /** What a technician is told, as full sentences, the gravest first. */
      readonly says: readonly string[]
    }
  /** Parameters without which readings say nothing. */
  | { readonly kind: 'not-computable'; readonly missing: readonly string[] }
  | { readonly kind: 'not-decaying'; readonly why: string }

/** What readings of one source tell: how it falls, when it is safe, and what about it is not as declared. */
export function judgeDecay(parameters: EnergyParameters, observation: DecayObservation): JudgedDecay {
  const level = safeBelow(parameters)
  const found = modelOf(parameters, level)
  if (found.kind !== 'model') return found
  if (level === undefined) return { kind: 'not-computable', missing: ['safe-below'] }
  const safe = level.interval.low
  const { readings, accuracy, shortedAt } = observation
  const fit = fitDecay(readings, {
    model: found.model,
    safe,
    ...(accuracy === undefined ? {} : { accuracy }),
    ...(shortedAt === undefined ? {} : { shortedAt })
  })
  const last = readings.at(-1)?.seconds ?? 0
  return { kind: 'judged', fit, model: found.model, safe, says: tellFit(parameters, fit, { last, level }) }
}

type Model = { readonly kind: 'model'; readonly model: DecayModel } | Exclude<JudgedDecay, { kind: 'judged' }>

function modelOf(parameters: EnergyParameters, level: Quantity | undefined): Model {
  const { kind, quantities } = parameters
  const high = (name: string): number | undefined => quantities[name]?.interval.high
  const low = (name: string): number | undefined => quantities[name]?.interval.low
  switch (kind) {
    case 'capacitor': {
      const bank = product(high('balancing'), high('element-capacitance'), high('parallel'))
      return exponential(0, bank ?? product(high('bleed'), high('capacitance')))
    }
    case 'magnet':
      if (level !== undefined && level.dimension !== 'current') return missing('safe-below as a current')
      return exponential(0, quotient(high('inductance'), low('resistance')))
    case 'rotating': {
      const measured = quotient(low('speed'), high('coast-down'))
      const byFriction = quotient(low('friction-torque'), high('inertia'))
      const slowest = measured === undefined ? byFriction : Math.min(measured, byFriction ?? measured)
      return { kind: 'model', model: { kind: 'linear', ...(slowest === undefined ? {} : { slowest }) } }
    }
    case 'thermal': {
      const ambient = high('ambient')
      return ambient === undefined ? missing('ambient') : exponential(ambient, high('time-constant'))
    }
    case 'gas':
      // The pressure above ambient falls faster and faster, so its exponential tells a later moment than the true one.
      return exponential(0, slowestVentingConstant(parameters))
    case 'liquid':
      return exponential(0, undefined)
    case 'electrical':
      return {
        kind: 'not-decaying',
        why: 'A supply does not decay: a voltage that is still there means that it is not isolated.'
      }
    case 'battery':
      return { kind: 'not-decaying', why: 'A battery keeps its charge however long the wait is.' }
    case 'gravity':
      return {
        kind: 'not-decaying',
        why: 'A raised load does not come down by waiting: where it sinks, what holds it is leaking.'
      }
    case 'spring':
      return { kind: 'not-decaying', why: 'A loaded spring stays loaded until it is let out or held.' }
    case 'other':
      return missing('a formula for this kind of source')
  }
}

function exponential(floor: number, slowest: number | undefined): Model {
  return { kind: 'model', model: { kind: 'exponential', floor, ...(slowest === undefined ? {} : { slowest }) } }
}

function missing(name: string): Model {
  return { kind: 'not-computable', missing: [name] }
}

function product(...factors: readonly (number | undefined)[]): number | undefined {
  return factors.reduce<number | undefined>(
    (total, factor) => (total === undefined || factor === undefined ? undefined : total * factor),
    1
  )
}

function quotient(above: number | undefined, below: number | undefined): number | undefined {
  return above === undefined || below === undefined || !(below > 0) ? undefined : above / below
}

interface Telling {
  readonly last: number
  readonly level: Quantity
}

function tellFit(parameters: EnergyParameters, fit: DecayFit, telling: Telling): readonly string[] {
  const signs = fit.signs.map((sign) => tellSign(parameters, sign, telling.level))
  switch (fit.kind) {
    case 'not-enough':
      return [...signs, fit.why]
    case 'reached':
      return [...signs, 'The last reading is below the safe level. Verify it as the procedure asks.']
    case 'not-falling':
      return [...signs, 'It does not fall. Do not wait for it: find out what feeds it.']
    case 'falling':
      // A date for the safe level next to word that it has stopped falling would be believed.
      return fit.signs.some(({ kind }) => kind === 'stopped-falling' || kind === 'rising')
        ? [...signs, 'Do not wait for it: find out what is the matter.']
        : [...signs, tellSafeAt(fit, telling.last)]
  }
}

function tellSafeAt({ safeAt }: Extract<DecayFit, { kind: 'falling' }>, last: number): string {
  const { best, interval } = safeAt
  const from = (at: number): string => formatDuration(Math.max(0, at - last))
  if (interval === undefined) {
    return `It should be below the safe level about ${from(best)} after the last reading. How sure that is cannot be told from two readings: take a third, or give the accuracy of the instrument.`
  }
  if (!Number.isFinite(interval.high)) {
    return `It should be below the safe level about ${from(best)} after the last reading, but the readings are too near each other to tell until when it is certain.`
  }
  return `It should be below the safe level about ${from(best)} after the last reading, and after ${from(interval.high)} at the latest as far as the readings tell (95 % interval). Only a reading is proof.`
}

/** What shuts the way out of each kind, and what can feed it. */
function faultsOf(kind: EnergyParameters['kind']): { readonly slow: string; readonly fed: string } {
  switch (kind) {
    case 'capacitor':
      return { slow: 'a bleed resistor may be open', fed: 'it may still be fed, or its bleed resistor may be open' }
    case 'magnet':
      return { slow: 'its discharge circuit may be open', fed: 'it may still be fed' }
    case 'rotating':
      return { slow: 'something may still drive it', fed: 'something may still drive it' }
    case 'gas':
    case 'liquid':
      return {
        slow: 'a valve may be shut or a line blocked',
        fed: 'a valve may be shut or a line blocked, or it may still be fed'
      }
    case 'thermal':
      return { slow: 'something may still heat it', fed: 'something may still heat it' }
    case 'electrical':
    case 'battery':
    case 'gravity':
    case 'spring':
    case 'other':
      return { slow: 'something may still feed it', fed: 'something may still feed it' }
  }
}

function tellSign({ kind }: EnergyParameters, sign: DecaySign, { dimension }: Quantity): string {
  const { slow, fed } = faultsOf(kind)
  switch (sign.kind) {
    case 'slower-than-worst-case':
      return sign.certainty === 'clear'
        ? `It falls slower than the worst case of what is declared: ${slow}.`
        : `It may be falling slower than the worst case of what is declared: ${slow}. Take another reading.`
    case 'stopped-falling':
      return `It has stopped falling at ${tellLevel(sign.level, dimension)}: ${fed}.`
    case 'rising':
      return `It rises, from ${tellLevel(sign.from, dimension)} to ${tellLevel(sign.to, dimension)}: ${fed}.`
    case 'rise-after-short':
      return kind === 'capacitor'
        ? `It rose from ${tellLevel(sign.from, dimension)} to ${tellLevel(sign.to, dimension)} after the short was taken off: dielectric absorption gives charge back, or it is still fed. Keep it shorted while work goes on.`
        : `It rose from ${tellLevel(sign.from, dimension)} to ${tellLevel(sign.to, dimension)} after it was let out: ${fed}.`
  }
}
