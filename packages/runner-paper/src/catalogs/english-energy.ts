import { duration } from '../text/duration.js'

/** English wording of stored energies, on the checklist and on the calculation sheet; a part of the catalog. */
export const englishEnergy = {
  sheet: 'Calculation sheet of stored energies',
  notForWork: 'Figures, not readings: prove every energy dead at the machine',
  cautions: [
    'Every figure follows from what the procedure declares and from the formula named, at the worst end of every tolerance.',
    'No figure replaces a reading. The rules of the plant, local codes and qualified people come first.',
    'What is not declared is named as missing. What is taken as usual instead is marked as assumed or as a default.'
  ],
  /** Between a title and what came of it. */
  colon: ': ',
  overview: 'At a glance',
  remarks: 'What is taken otherwise than declared',
  heads: {
    source: 'Source',
    most: 'Energy, at most',
    felt: 'Comparison and magnitude',
    wait: 'Wait, and what it rests on',
    parameter: 'Parameter',
    value: 'Value',
    symbol: 'Symbol',
    input: 'What goes in',
    used: 'Used',
    low: 'From',
    high: 'To'
  },
  whatIf: (before: string) => `what if, in place of ${before}`,
  noParameters: 'No parameter is declared.',
  nothingToWait: 'no wait is asked for',
  source: (source: string) => `Source: ${source}`,
  note: (note: string) => `Note: ${note}`,
  mind: 'Mind',
  couldBeAdded: 'To be declared or looked at again',
  falls: 'How the stored energies fall',
  magnitudes: { trivial: 'trivial', dangerous: 'dangerous', 'very-dangerous': 'very dangerous' },
  /** What the energy package says in English, with `{1}` for what changes, and how it is said here; none in English. */
  phrases: [] as readonly (readonly [string, string])[],
  /** In the cells of the table of sources. */
  of: { whole: '', rest: ' of the gas that stays' },
  most: (joules: string) => `at most ${joules}`,
  felt: (felt: string, of: string) => `, ${felt}${of}`,
  from: (joules: string) => ` (from ${joules})`,
  unknown: 'energy not computed: no sign that it is small',
  besides: (grounds: readonly string[]) => `; ${grounds.join(', ')}`,
  ground: {
    written: (seconds: number) => `written ${duration(seconds)}`,
    label: (seconds: number) => `label ${duration(seconds)}`,
    computed: (seconds: number) => `computed ${duration(seconds)}`
  },
  curve: {
    key: ': thick at the slowest, dotted at the fastest',
    alternate: (source: string, level: string, start: string, description: string, waits: string) =>
      `Curve: ${level.toLowerCase()} of ${source} over time, from at most ${start}. ${description}${waits}`,
    waits: (grounds: readonly string[]) => (grounds.length === 0 ? '' : ` Also marked: ${grounds.join(', ')}.`)
  }
}
