import { dimensionFacts } from './dimensions.js'
import type { EnergyKind, EnergyParameters } from './energy-parameters.js'
import { type GasName, gases } from './formulas/gases.js'
import { isEnergyParameterName, type ParameterFacts, parameterFacts } from './parameter-facts.js'
import { type DecimalOptions, parseQuantity } from './parse-quantity.js'
import type { Quantity } from './quantity.js'

/** One parameter of an energy source, read: a quantity, or a word where the parameter is one. */
export type EnergyParameter =
  | { readonly kind: 'quantity'; readonly name: string; readonly quantity: Quantity }
  | { readonly kind: 'gas'; readonly gas: GasName }
  | { readonly kind: 'surface' | 'contact'; readonly text: string }

export type ReadParameter =
  | { readonly ok: true; readonly value: EnergyParameter }
  | { readonly ok: false; readonly why: string }

export type ReadSource =
  | { readonly ok: true; readonly value: EnergyParameters }
  | { readonly ok: false; readonly why: readonly string[] }

/** A bare number with its tolerance (a fraction), for shares and counts. */
export function numberQuantity(value: number, tolerance = 0): Quantity {
  const ends = [value * (1 - tolerance), value * (1 + tolerance)] as const
  return {
    written: tolerance === 0 ? String(value) : `${value} ± ${tolerance * 100} %`,
    value,
    unit: '',
    dimension: 'number',
    tolerance,
    si: value,
    interval: { low: Math.min(...ends), high: Math.max(...ends) }
  }
}

/** Reads `capacitance`, `9.4 mF ± 20 %`; a share or a count may be a bare number. `why` is a full sentence. */
export function readParameter(name: string, text: string, options: DecimalOptions = {}): ReadParameter {
  const refuse = (why: string): ReadParameter => ({ ok: false, why })
  const written = text.trim()
  if (name === 'surface' || name === 'contact') {
    return written === ''
      ? refuse(`\`${name}\` is empty: say what it is.`)
      : { ok: true, value: { kind: name, text: written } }
  }
  if (name === 'gas') {
    return isGas(written)
      ? { ok: true, value: { kind: 'gas', gas: written } }
      : refuse(`\`${written}\` is not a gas that is known here: it may be ${Object.keys(gases).join(', ')}.`)
  }
  if (!isEnergyParameterName(name)) return refuse(`\`${name}\` is not a parameter of an energy source.`)
  const facts: ParameterFacts = parameterFacts[name]
  const read = facts.dimensions.includes('number') ? readNumber(written, options) : parseQuantity(written, options)
  if (!read.ok) return refuse(`\`${name}\`: ${read.why}`)
  const quantity = name === 'atmosphere' ? asAbsolute(read.value) : read.value
  if (!facts.dimensions.includes(quantity.dimension)) {
    const wanted = facts.dimensions.map((dimension) => dimensionFacts[dimension].phrase).join(' or ')
    return refuse(`\`${name}\` is ${wanted}, and \`${written}\` is ${dimensionFacts[quantity.dimension].phrase}.`)
  }
  if (facts.dimensions.includes('number') && !(quantity.interval.low > 0)) {
    return refuse(`\`${name}\` is \`${written}\`: it has to be above zero, also at the low end of its tolerance.`)
  }
  return { ok: true, value: { kind: 'quantity', name, quantity } }
}

/** A whole source from texts: `readEnergySource('capacitor', { capacitance: '9.4 mF', voltage: '930 V dc' })`. */
export function readEnergySource(
  kind: EnergyKind,
  texts: Readonly<Record<string, string>>,
  options: DecimalOptions = {}
): ReadSource {
  const why: string[] = []
  let source: EnergyParameters = { kind, quantities: {} }
  for (const [name, text] of Object.entries(texts)) {
    const read = readParameter(name, text, options)
    if (read.ok) source = withParameter(source, read.value)
    else why.push(read.why)
  }
  return why.length > 0 ? { ok: false, why } : { ok: true, value: source }
}

/** The same source with one parameter more, or another one in its place. */
export function withParameter<Source extends EnergyParameters>(source: Source, parameter: EnergyParameter): Source {
  switch (parameter.kind) {
    case 'quantity':
      return { ...source, quantities: { ...source.quantities, [parameter.name]: parameter.quantity } }
    case 'gas':
      return { ...source, gas: parameter.gas }
    case 'surface':
      return { ...source, surface: parameter.text }
    case 'contact':
      return { ...source, contact: parameter.text }
  }
}

function isGas(text: string): text is GasName {
  return Object.hasOwn(gases, text)
}

type Read = { readonly ok: true; readonly value: Quantity } | { readonly ok: false; readonly why: string }

/** `0.8`, `0.8 ± 5 %` and `80 %` are the same sort of number. */
function readNumber(text: string, options: DecimalOptions): Read {
  const [head = '', spread] = text.split('±')
  if (head.trim().endsWith('%')) return parseQuantity(text, options)
  // The unit is lent for the reading and taken off again, so that all rules of numbers hold.
  const lent = parseQuantity(`${head.trim()} m${spread === undefined ? '' : ` ± ${spread}`}`, options)
  if (!lent.ok || !/\d$/.test(head.trim())) {
    return { ok: false, why: `\`${text}\` is not a number: write it as \`0.8\`, with a tolerance if it has one.` }
  }
  const { value, interval, tolerance } = lent.value
  return { ok: true, value: { ...numberQuantity(value, tolerance), written: text, interval } }
}

/** The surroundings have no pressure above themselves: one in a plain unit is meant as absolute. */
function asAbsolute(quantity: Quantity): Quantity {
  return quantity.dimension === 'pressure' ? { ...quantity, reference: 'absolute' } : quantity
}
