import { parseQuantity } from '@lockwright/energy'
import { bad, good, type RecordsResult } from '../result.js'
import type { Accuracy, Instrument, InstrumentRating } from './instrument.js'

/** `CAT III 1000 V`, as it is printed on the instrument and on its leads; the lower of the two counts. */
export function readRating(text: string): RecordsResult<InstrumentRating> {
  const [, category, voltage = ''] = /^\s*(?:CAT\s*)?(IV|III|II)\s+(.+)$/i.exec(text) ?? []
  const upTo = parseQuantity(voltage)
  if (category === undefined || !upTo.ok || upTo.value.dimension !== 'voltage') {
    return refused(`\`${text}\` is no rating.`, 'Write it as `CAT III 1000 V`, once for each that is printed on it.')
  }
  return good({ category: category.toUpperCase() as InstrumentRating['category'], upTo: upTo.value })
}

/** `0 to 10 bar`: from the least to the most that it can show. */
export function readRange(text: string): RecordsResult<NonNullable<Instrument['range']>> {
  const [, least = '', most = ''] = /^\s*(.+?)\s+to\s+(.+)$/.exec(text) ?? []
  const high = parseQuantity(most)
  // The unit of the upper end serves for a bare number at the lower.
  const low = parseQuantity(high.ok && /^[-+]?[\d.]+$/.test(least) ? `${least} ${high.value.unit}` : least)
  if (!low.ok || !high.ok) {
    return refused(`\`${text}\` is no range.`, 'Write it as `0 to 10 bar`.')
  }
  return good({ low: low.value, high: high.value })
}

/** `1.6 % of range`, or parts that add up: `2 % of reading + 1 V`. */
export function readAccuracy(text: string): RecordsResult<Accuracy> {
  let accuracy: Accuracy = { ofReading: 0, ofRange: 0, plus: null }
  for (const part of text.replaceAll('±', '').split('+')) {
    const [, figure, of] = /^\s*(\d+(?:\.\d+)?)\s*%\s*of\s+(reading|range)\s*$/.exec(part) ?? []
    const fixed = figure === undefined ? parseQuantity(part) : null
    if (fixed !== null && (!fixed.ok || fixed.value.dimension === 'number' || accuracy.plus !== null)) {
      return refused(
        `\`${text}\` is no accuracy.`,
        'Write it as `1.6 % of range`, `2 % of reading + 1 V`, or a value with its unit.'
      )
    }
    accuracy =
      fixed?.ok === true
        ? { ...accuracy, plus: fixed.value }
        : { ...accuracy, [of === 'range' ? 'ofRange' : 'ofReading']: Number(figure) }
  }
  return good(accuracy)
}

function refused(what: string, mend: string): RecordsResult<never> {
  return bad({
    id: 'not-an-instrument',
    file: '',
    what,
    danger: 'What the instrument is worth could not be told.',
    mend
  })
}
