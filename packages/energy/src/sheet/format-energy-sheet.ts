import type { Calculation, CalculationInput, Outcome } from '../calculations/calculation.js'
import type { EnergySheet, SheetEntry } from './energy-sheet.js'
import { inputFigure, tellInput, tellMagnitude, tellOutcome, tellWait } from './tell-outcome.js'

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
  const wait = tellWait(entry.wait)
  return [
    `${entry.id} (${entry.kind})`,
    ...entry.parameters.map(({ name, text, insteadOf }) =>
      insteadOf === undefined ? `  ${name}: ${text}` : `  ${name}: ${text}  [what if, in place of ${insteadOf}]`
    ),
    ...indented(outcomeLines(entry.energy)),
    ...indented(magnitudeLines(entry)),
    ...indented(outcomeLines(entry.time)),
    ...(wait === undefined ? [] : [`  Wait: ${wait}`]),
    ...(brief ? [] : furtherOutcomes(entry).flatMap((outcome) => indented(outcomeLines(outcome)))),
    ...[...entry.findings, ...entry.advice].map((sentence) => `  ! ${sentence}`)
  ]
}

/** The further calculations of a source, without those that already stand as its energy or its time. */
export function furtherOutcomes({ energy, time, further }: SheetEntry): readonly Outcome[] {
  const shown = new Set([idOf(energy), idOf(time)])
  return further.filter((outcome) => !shown.has(idOf(outcome)))
}

function idOf(outcome: Outcome): string {
  return outcome.kind === 'computed' ? outcome.calculation.id : outcome.id
}

/** True where magnitude and comparison are of the gas that stays when the oil is out. */
export function judgedByRest({ energy, judgedBy }: SheetEntry): boolean {
  return judgedBy !== undefined && idOf(energy) !== judgedBy
}

const indented = (lines: readonly string[]): readonly string[] => lines.map((line) => `  ${line}`)

function outcomeLines(outcome: Outcome): readonly string[] {
  if (outcome.kind === 'computed') return calculationLines(outcome.calculation, tellOutcome(outcome))
  return [`${outcome.title}: ${tellOutcome(outcome)}`]
}

function calculationLines(calculation: Calculation, told: string): readonly string[] {
  const { title, steps, formula, substitution, source, inputs, notes } = calculation
  return [
    `${title}: ${told}`,
    ...inputs.map((input) => `    ${inputLine(input)}`),
    ...[...steps, { formula, substitution }].flatMap((step) => workLines(step)).map((line) => `    ${line}`),
    `    Source: ${source}`,
    ...notes.map((note) => `    Note: ${note}`)
  ]
}

/** Formula and figures; the formula alone where it holds no figures. */
export function workLines(step: { readonly formula: string; readonly substitution: string }): readonly string[] {
  return step.substitution.startsWith(`${step.formula} =`) ? [step.substitution] : [step.formula, step.substitution]
}

function inputLine(input: CalculationInput): string {
  const { symbol, interval, used } = input
  const [low, high] = [inputFigure(interval.low, input), inputFigure(interval.high, input)]
  const range = interval.low === interval.high ? '' : `, from ${low} to ${high}`
  return `${symbol} = ${inputFigure(used, input)}${range}: ${tellInput(input)}`
}

function magnitudeLines(entry: SheetEntry): readonly string[] {
  const { magnitude, felt } = entry
  if (magnitude === undefined || felt === undefined) return []
  const of = judgedByRest(entry) ? ' of the gas that stays' : ''
  return [`  Comparison${of}: ${felt}`, `  Magnitude: ${tellMagnitude(magnitude)}`]
}
