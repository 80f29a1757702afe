import { type Dimension, dimensionOf } from '@lockwright/energy'
import { oneOf, quoted } from '../faults.js'
import { nearest } from '../nearest.js'
import { dimensionExamples, unitWords } from './dimension-words.js'

/** What is wrong with a text that is no quantity, and how to mend it, as two full sentences. */
export interface QuantityTrouble {
  readonly what: string
  readonly mend: string
}

// What is longer is no quantity; the patterns below are for short texts.
const longest = 120
const plainNumber = /^[-+−]?\d+(?:\.\d+)?$/
const thousands = /^[-+−]?\d{1,3}(?:,\d{3})+(?!\d)/
const numberAndUnit = /^([-+−]?\d+(?:\.\d+)?)\s*([^\d\s±+][^\d±+]*?)(\s+(?:ac|dc))?(\s*(?:±|\+\/-|\+-).*)?$/

/** `why` is what the reader of quantities says of the text; `dimensions` are those that are wanted, none where any is. */
export function explainQuantity(written: string, why: string, dimensions: readonly Dimension[]): QuantityTrouble {
  const text = written.trim()
  const example = exampleOf(dimensions)
  if (text.length > longest) return { what: why, mend: `Write a number and a unit, such as ${example}.` }
  if (/\d,\d/.test(text)) return { what: why, mend: mendComma(text) }
  if (plainNumber.test(text)) {
    return { what: `${quoted(text)} has no unit.`, mend: `Write one behind the number, such as ${example}.` }
  }
  const usual = `Write a number and a unit, such as ${example}.`
  const [, number = '', unit = '', current = '', tolerance = ''] = numberAndUnit.exec(text) ?? []
  if (unit === '' || dimensionOf(unit) !== undefined) return { what: withoutExample(why), mend: usual }
  const what = `${quoted(unit)} is not a unit that is known here.`
  const meant = unitsMeant(unit, dimensions).map((symbol) => `${number} ${symbol}${current}${tolerance}`)
  if (meant.length > 0) return { what, mend: `Write ${oneOf(meant)}.` }
  // Without a dimension the nearest of all units are the best guess.
  return { what: dimensions.length === 0 ? why : what, mend: usual }
}

/** The decimal comma made a point; where it may part thousands, both readings. */
export function mendComma(text: string, key = ''): string {
  const point = text.replace(/(\d),(?=\d)/g, '$1.')
  const plain = text.replace(/(\d),(?=\d)/g, '$1')
  const shown = (value: string): string => quoted(`${key}${value}`)
  return thousands.test(text)
    ? `Write ${shown(plain)} or, with a decimal point, ${shown(point)}, whichever is meant.`
    : `Write ${shown(point)}.`
}

export function exampleOf([dimension]: readonly Dimension[]): string {
  return quoted(dimension === undefined ? '690 V ± 10 %' : dimensionExamples[dimension])
}

/** The units of a wanted dimension that a spelling may stand for. */
function unitsMeant(spelling: string, dimensions: readonly Dimension[]): readonly string[] {
  const wanted = (symbol: string): boolean => {
    const dimension = dimensionOf(symbol)
    return dimension !== undefined && (dimensions.length === 0 || dimensions.includes(dimension))
  }
  const small = spelling.toLowerCase()
  const word = unitWords.get(small) ?? unitWords.get(small.replace(/s$/, ''))
  if (word !== undefined) return wanted(word) ? [word] : []
  const words = nearest(small, unitWords.keys()).flatMap((near) => unitWords.get(near) ?? [])
  const units = nearest(spelling, commonUnits.filter(wanted))
  const sameButForCase = units.filter((symbol) => symbol.toLowerCase() === small)
  const all = small.length > 4 ? words : sameButForCase.length > 0 ? sameButForCase : units
  return [...new Set(all)].filter(wanted)
}

/** Units in which the quantities of a procedure are usually written. */
const commonUnits = [
  ...[
    'V',
    'mV',
    'kV',
    'A',
    'mA',
    'kA',
    'F',
    'mF',
    'µF',
    'nF',
    'Ω',
    'kΩ',
    'ohm',
    'H',
    'mH',
    'Ah',
    'J',
    'kJ',
    'Wh',
    'kWh'
  ],
  ...['s', 'ms', 'min', 'h', 'd', 'bar', 'mbar', 'Pa', 'kPa', 'MPa', 'psi', 'L', 'mL', 'm³', 'gal', 'ft³', 'in³'],
  ...['m', 'cm', 'mm', 'km', 'in', 'ft', 'g', 'kg', 't', 'lb', 'kg·m²', 'lb·ft²', 'rpm', 'rad/s', 'N·m', 'lbf·ft'],
  ...['N', 'kN', 'lbf', 'N/m', 'N/mm', 'kN/m', 'lbf/in', 'K', '°C', '°F', 'Hz', 'W', 'kW']
]

/** A sentence of the reader of quantities without its example, which may be of another dimension. */
function withoutExample(why: string): string {
  return why.replace(/: write (?:a number and a unit|one after the number), such as `[^`]*`\.$/, '.')
}
