import type { CalculationInput, Outcome } from '../calculations/calculation.js'
import { formatMeasure } from '../format-beside.js'
import { plainNumber } from '../format-number.js'
import { formatDuration } from '../format-quantity.js'
import { isEnergyParameterName, type ParameterFacts, parameterFacts } from '../parameter-facts.js'
import type { RequiredWait } from '../required-wait.js'
import type { JudgedMagnitude, Magnitude } from '../thresholds/energy-magnitude.js'

/** What came of a calculation in one phrase: `5.378 kJ (3970 ft·lbf), at best 2.935 kJ (2160 ft·lbf)`. */
export function tellOutcome(outcome: Outcome): string {
  switch (outcome.kind) {
    case 'computed': {
      const { result, dimension } = outcome.calculation
      const worst = formatMeasure(result.high, dimension)
      return result.low === result.high ? worst : `${worst}, at best ${formatMeasure(result.low, dimension)}`
    }
    case 'not-computable':
      return `not computable, missing ${outcome.missing.map(tellMissing).join('; ')}`
    case 'never':
    case 'no-formula':
      return outcome.why
  }
}

/** A parameter by its name, and where it can be given if no key of the front matter does. */
function tellMissing(name: string): string {
  if (name === 'gas') return 'gas (which gas it is; no key of the front matter: give it as a what-if)'
  if (!isEnergyParameterName(name)) return name
  const { says, beyondLanguage }: ParameterFacts = parameterFacts[name]
  if (beyondLanguage) return `${name} (${says}; no key of the front matter: give it as a what-if)`
  return says === name ? name : `${name} (${says})`
}

/** A number of an input in its unit: as `used`, or an end of its interval. */
export function inputFigure(value: number, { unit }: Pick<CalculationInput, 'unit'>): string {
  return `${plainNumber(value, 7)}${unit === '' ? '' : ` ${unit}`}`
}

/** What an input is and where it comes from. */
export function tellInput({ name, origin, source }: CalculationInput): string {
  const told = { declared: '', default: ' (default of its kind)', constant: '', assumed: ' (assumed)' }[origin]
  return `${name}${told}${source === undefined ? '' : `, ${source}`}`
}

export const magnitudeWords: Readonly<Record<Magnitude, string>> = {
  trivial: 'trivial',
  dangerous: 'dangerous',
  'very-dangerous': 'very dangerous'
}

/** How dangerous it is, by which threshold, and how sure that is. */
export function tellMagnitude(judged: JudgedMagnitude): string {
  if (judged.kind === 'no-threshold') return judged.why
  const word = magnitudeWords[judged.magnitude]
  const { threshold } = judged
  return threshold === undefined
    ? `${word}, below every threshold known here; it stays in the procedure all the same`
    : `${word}, from ${formatMeasure(threshold.joules, 'energy')}: ${threshold.says} (${threshold.source}; ${provenances[threshold.provenance]})`
}

const provenances = { read: 'published', memory: 'from memory', analogy: 'by analogy, no source of its own' } as const

/** The wait, what it rests on, and what the others would ask for; undefined where there is nothing to wait for. */
export function tellWait({ seconds, because, grounds }: RequiredWait): string | undefined {
  if (because === 'none') return undefined
  const { written, label, computed } = grounds
  const all = [
    ...(written === undefined ? [] : [`written ${formatDuration(written)}`]),
    ...(label === undefined ? [] : [`label ${formatDuration(label)}`]),
    ...(computed === undefined ? [] : [`worst case ${formatDuration(computed)}`])
  ]
  const ground = { written: 'as written', label: 'as its label asks', computed: 'as the worst case takes' }[because]
  return `${formatDuration(seconds)}, ${ground} (${all.join(', ')})`
}
