/** How one locale writes numbers and counts things. */
export interface Numbers {
  /** BCP 47, as the formats of numbers and dates take it. */
  readonly locale: string
  /** What stands before the decimals. */
  readonly decimal: 'point' | 'comma'
  /** A number as printed, never with marks between thousands: `1.480` could be read in two ways. */
  readonly number: (value: number) => string
  /** A quantity as declared, its decimal sign as here. */
  readonly written: (text: string) => string
  /** The form of a word that goes with so many things. */
  readonly plural: (count: number, forms: { readonly one: string; readonly other: string }) => string
}

/** Numbers by locale, with fixed options, so that the machine that prints has no say in it. */
export function numbersOf(locale: string): Numbers {
  const format = new Intl.NumberFormat(locale, {
    useGrouping: false,
    maximumSignificantDigits: 12,
    numberingSystem: 'latn'
  })
  const rules = new Intl.PluralRules(locale)
  const decimal = format.format(0.5).includes(',') ? 'comma' : 'point'
  return {
    locale,
    decimal,
    number: (value) => format.format(value),
    written: (text) => (decimal === 'comma' ? text.replace(/(\d)\.(?=\d)/g, '$1,') : text),
    plural: (count, forms) => (rules.select(count) === 'one' ? forms.one : forms.other)
  }
}

/** A date with its month in words, then the time: in UTC, so that it is the same wherever it is printed. */
export function momentIn(locale: string, told: (day: string, month: string, year: string, time: string) => string) {
  const months = new Intl.DateTimeFormat(locale, { month: 'long', timeZone: 'UTC', calendar: 'gregory' })
  return (at: string): string => {
    const time = new Date(at)
    if (Number.isNaN(time.getTime())) return at
    const text = time.toISOString()
    return told(String(time.getUTCDate()), months.format(time), text.slice(0, 4), `${text.slice(11, 16)} UTC`)
  }
}
