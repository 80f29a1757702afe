import type { Calculation, CalculationInput, Outcome } from '../calculations/calculation.js'
import { formatMeasure } from '../format-beside.js'
import { plainNumber } from '../format-number.js'
import { formatDuration } from '../format-quantity.js'
import { isEnergyParameterName, type ParameterFacts, parameterFacts } from '../parameter-facts.js'
import type { EnergySheet, SheetEntry } from './energy-sheet.js'

export interface FormatEnergySheetOptions {
  /** Leaves the further calculations out. */
  readonly brief?: boolean
}

/** The calculation sheet as plain text, one source after another. */
export function formatEnergySheet(sheet: EnergySheet, { brief = false }: FormatEnergySheetOptions = {}): string {
  const parts = [
    ...sheet.remarks.map((sentence) => [`Note: ${sentence}`]),
    ...sheet.entries.map((entry) => linesOf(entry, brief)),
    [sheet.caution]
  ]
  return `${parts.map((lines) => lines.join('\n')).join('\n\n')}\n`
}

function linesOf(entry: SheetEntry, brief: boolean): readonly string[] {
  const shown = new Set([entry.energy, entry.time].flatMap((outcome) => idOf(outcome)))
  return [
    `${entry.id} (${entry.kind})`,
    ...entry.parameters.map(({ name, text, insteadOf }) =>
      insteadOf === undefined ? `  ${name}: ${text}` : `  ${name}: ${text}  [what if, in place of ${insteadOf}]`
    ),
    ...indented(outcomeLines(entry.energy)),
    ...indented(magnitudeLines(entry)),
    ...indented(outcomeLines(entry.time)),
    ...indented(waitLines(entry)),
    ...(brief
      ? []
      : entry.further
          .filter((outcome) => !shown.has(idOf(outcome)[0] ?? ''))
          .flatMap((outcome) => indented(outcomeLines(outcome)))),
    ...entry.findings.map((sentence) => `  ! ${sentence}`)
  ]
}

function idOf(outcome: Outcome): readonly string[] {
  return outcome.kind === 'computed' ? [outcome.calculation.id] : [outcome.id]
}

const indented = (lines: readonly string[]): readonly string[] => lines.map((line) => `  ${line}`)

function outcomeLines(outcome: Outcome): readonly string[] {
  switch (outcome.kind) {
    case 'computed':
      return calculationLines(outcome.calculation)
    case 'not-computable':
      return [`${outcome.title}: not computable, missing ${outcome.missing.map(tellMissing).join('; ')}`]
    case 'never':
    case 'no-formula':
      return [`${outcome.title}: ${outcome.why}`]
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

function calculationLines(calculation: Calculation): readonly string[] {
  const { title, result, dimension, steps, formula, substitution, source, inputs, notes } = calculation
  const worst = formatMeasure(result.high, dimension)
  const range = result.low === result.high ? '' : `, at best ${formatMeasure(result.low, dimension)}`
  return [
    `${title}: ${worst}${range}`,
    ...inputs.map((input) => `    ${inputLine(input)}`),
    ...[...steps, { formula, substitution }].flatMap((step) => workLines(step)),
    `    Source: ${source}`,
    ...notes.map((note) => `    Note: ${note}`)
  ]
}

/** Formula and figures; the formula alone where it holds no figures. */
function workLines(step: { readonly formula: string; readonly substitution: string }): readonly string[] {
  return step.substitution.startsWith(`${step.formula} =`)
    ? [`    ${step.substitution}`]
    : [`    ${step.formula}`, `    ${step.substitution}`]
}

function inputLine({ name, symbol, interval, used, unit, origin, source }: CalculationInput): string {
  const figure = (value: number): string => `${plainNumber(value, 7)}${unit === '' ? '' : ` ${unit}`}`
  const range = interval.low === interval.high ? '' : `, from ${figure(interval.low)} to ${figure(interval.high)}`
  const told = { declared: '', default: ' (default of its kind)', constant: '', assumed: ' (assumed)' }[origin]
  return `${symbol} = ${figure(used)}${range}: ${name}${told}${source === undefined ? '' : `, ${source}`}`
}

function magnitudeLines({ magnitude, felt, judgedBy, energy }: SheetEntry): readonly string[] {
  if (magnitude === undefined || felt === undefined) return []
  const of = idOf(energy)[0] === judgedBy ? '' : ' of the gas that stays'
  const comparison = `  Comparison${of}: ${felt}`
  if (magnitude.kind === 'no-threshold') return [comparison, `  Magnitude: ${magnitude.why}`]
  const { threshold } = magnitude
  const word = { trivial: 'trivial', dangerous: 'dangerous', 'very-dangerous': 'very dangerous' }[magnitude.magnitude]
  return threshold === undefined
    ? [comparison, `  Magnitude: ${word}, below every threshold known here; it stays in the procedure all the same`]
    : [
        comparison,
        `  Magnitude: ${word}, from ${formatMeasure(threshold.joules, 'energy')}: ${threshold.says} (${threshold.source}; ${tellProvenance(threshold.provenance)})`
      ]
}

function tellProvenance(provenance: 'read' | 'memory' | 'analogy'): string {
  return { read: 'published', memory: 'from memory', analogy: 'by analogy, no source of its own' }[provenance]
}

function waitLines({ wait }: SheetEntry): readonly string[] {
  const { written, label, computed } = wait.grounds
  const grounds = [
    ...(written === undefined ? [] : [`written ${formatDuration(written)}`]),
    ...(label === undefined ? [] : [`label ${formatDuration(label)}`]),
    ...(computed === undefined ? [] : [`worst case ${formatDuration(computed)}`])
  ]
  const because = { written: 'as written', label: 'as its label asks', computed: 'as the worst case takes', none: '' }
  return wait.because === 'none'
    ? []
    : [`Wait: ${formatDuration(wait.seconds)}, ${because[wait.because]} (${grounds.join(', ')})`]
}
