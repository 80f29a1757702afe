import { dimensionFacts } from '../dimensions.js'
import { type EnergyParameters, safeBelow } from '../energy-parameters.js'
import { plainNumber } from '../format-number.js'
import type { EnergyParameterName } from '../parameter-facts.js'
import type { Dimension, Quantity } from '../quantity.js'
import type { CalculationInput, CalculationStep, Interval, Outcome } from './calculation.js'

type Values<Name extends string> = Readonly<Record<Name, number>>

export interface Need<Name extends string> {
  readonly symbol: string
  readonly dimension: Dimension
  /** What the result does as this grows; `mixed` where it may do both. */
  readonly effect: 'raises' | 'lowers' | 'mixed'
  /** Mixed: where the result is largest, all else being equal. */
  readonly turn?: (values: Values<Name>) => number
}

export interface Constant {
  readonly name: string
  readonly symbol: string
  readonly value: number
  readonly unit: string
  readonly source: string
  readonly assumed?: true
}

interface StepRecipe<Name extends string> {
  readonly name: string
  readonly symbol: string
  readonly unit: string
  readonly expression: string
  readonly value: (values: Values<Name>) => number
}

/** How one result is reckoned. In an expression `{name}` stands for a parameter, a constant or an earlier step. */
export interface Recipe<Name extends EnergyParameterName> {
  readonly id: string
  readonly title: string
  readonly symbol: string
  readonly dimension: Dimension
  readonly needs: Readonly<Record<Name, Need<NoInfer<Name>>>>
  readonly constants?: readonly Constant[]
  /** Things that are missing besides parameters. */
  readonly lacks?: readonly string[]
  readonly steps?: readonly StepRecipe<NoInfer<Name>>[]
  readonly expression: string
  /** From SI values to the SI result; Infinity where it is never reached. */
  readonly evaluate: (values: Values<NoInfer<Name>>) => number
  readonly whyNever?: (values: Values<NoInfer<Name>>) => string
  readonly source: string
  readonly notes?: readonly string[]
  /** Said in place of the figures where the result is nothing at all. */
  readonly whenNothing?: string
}

/** Reckons a recipe over the tolerances of all its parameters, and shows the worst case in figures. */
export function calculate<Name extends EnergyParameterName>(
  parameters: EnergyParameters,
  recipe: Recipe<Name>
): Outcome {
  const { id, title } = recipe
  const names = Object.keys(recipe.needs) as Name[]
  const found = new Map<Name, Quantity>()
  const missing: string[] = []
  for (const name of names) {
    const quantity = name === 'safe-below' ? safeBelow(parameters) : parameters.quantities[name]
    // A quantity of another dimension is no use to the formula: as good as not declared.
    if (quantity === undefined || quantity.dimension !== recipe.needs[name].dimension) missing.push(name)
    else found.set(name, quantity)
  }
  missing.push(...(recipe.lacks ?? []))
  if (missing.length > 0) return { kind: 'not-computable', id, title, missing }

  const high = extreme(recipe, found, 'high')
  if (!Number.isFinite(high.result)) {
    const why = recipe.whyNever?.(high.values)
    // Something declared as nothing at all, zero positions in series for one, leaves nothing to reckon with.
    if (why === undefined) return { kind: 'not-computable', id, title, missing: ['values above zero'] }
    return { kind: 'never', id, title, why }
  }
  const low = extreme(recipe, found, 'low')
  return { kind: 'computed', calculation: written(recipe, parameters, found, high, low.result) }
}

interface Extreme<Name extends string> {
  readonly values: Values<Name>
  readonly result: number
}

/** The largest or smallest result that the tolerances allow. */
function extreme<Name extends EnergyParameterName>(
  recipe: Recipe<Name>,
  found: ReadonlyMap<Name, Quantity>,
  side: 'low' | 'high'
): Extreme<Name> {
  const other = side === 'low' ? 'high' : 'low'
  const first = {} as Record<Name, number>
  const mixed: Name[] = []
  for (const [name, { interval }] of found) {
    const { effect } = recipe.needs[name]
    first[name] = interval[effect === 'lowers' ? other : side]
    if (effect === 'mixed' && interval.low !== interval.high) mixed.push(name)
  }
  let candidates: readonly Record<Name, number>[] = [first]
  for (const name of mixed) {
    candidates = candidates.flatMap((values) =>
      pointsOf(found.get(name)?.interval ?? { low: 0, high: 0 }, recipe.needs[name].turn?.(values)).map((point) => ({
        ...values,
        [name]: point
      }))
    )
  }
  let best: Extreme<Name> | undefined
  for (const values of candidates) {
    const reckoned = recipe.evaluate(values)
    // Nothing over nothing tells nothing: the worse is taken.
    const result = Number.isNaN(reckoned) ? Number.POSITIVE_INFINITY : reckoned
    if (best === undefined || (side === 'high' ? result > best.result : result < best.result)) best = { values, result }
  }
  return best ?? { values: first, result: recipe.evaluate(first) }
}

function pointsOf({ low, high }: Interval, turn: number | undefined): readonly number[] {
  return turn !== undefined && turn > low && turn < high ? [low, turn, high] : [low, high]
}

function written<Name extends EnergyParameterName>(
  recipe: Recipe<Name>,
  parameters: EnergyParameters,
  found: ReadonlyMap<Name, Quantity>,
  high: Extreme<Name>,
  low: number
): Extract<Outcome, { kind: 'computed' }>['calculation'] {
  const terms = new Map<string, Term>()
  const inputs: CalculationInput[] = []
  for (const [name, quantity] of found) {
    const { symbol, dimension } = recipe.needs[name]
    const { unit } = dimensionFacts[dimension]
    const used = high.values[name]
    terms.set(name, { symbol, value: used, unit })
    const origin = parameters.quantities[name] === undefined ? 'default' : 'declared'
    inputs.push({ name, symbol, unit, interval: quantity.interval, used, origin, written: quantity.written })
  }
  for (const { name, symbol, value, unit, source, assumed } of recipe.constants ?? []) {
    terms.set(name, { symbol, value, unit })
    const interval = { low: value, high: value }
    inputs.push({ name, symbol, unit, interval, used: value, origin: assumed ? 'assumed' : 'constant', source })
  }
  const steps = (recipe.steps ?? []).map(({ name, symbol, unit, expression, value }): CalculationStep => {
    const reckoned = value(high.values)
    const step = {
      symbol,
      unit,
      formula: `${symbol} = ${symbols(expression, terms)}`,
      substitution: worked(symbol, figures(expression, terms), shown(reckoned, unit)),
      value: reckoned
    }
    terms.set(name, { symbol, value: reckoned, unit })
    return step
  })
  const { unit } = dimensionFacts[recipe.dimension]
  return {
    id: recipe.id,
    title: recipe.title,
    dimension: recipe.dimension,
    unit,
    formula: `${recipe.symbol} = ${symbols(recipe.expression, terms)}`,
    inputs,
    steps,
    // Where there is nothing to reckon the figures would not give it: a logarithm below nothing is no time.
    substitution:
      high.result === 0
        ? `${recipe.symbol} = ${shown(0, unit)}`
        : worked(recipe.symbol, figures(recipe.expression, terms), shown(high.result, unit)),
    result: { low, high: high.result },
    worst: high.result,
    source: recipe.source,
    notes: [
      ...(high.result === 0 ? [recipe.whenNothing ?? nothing[recipe.dimension] ?? ''] : []),
      ...(recipe.notes ?? [])
    ].filter((note) => note !== '')
  }
}

const nothing: Readonly<Partial<Record<Dimension, string>>> = {
  time: 'It starts at or below its safe level: there is nothing to wait for.'
}

interface Term {
  readonly symbol: string
  readonly value: number
  readonly unit: string
}

const placeholder = /\{([\w-]+)\}/g

function termOf(name: string, terms: ReadonlyMap<string, Term>): Term {
  const term = terms.get(name)
  // Expressions stand in this package: one that names nothing is a fault here.
  if (term === undefined) throw new Error(`an expression names \`${name}\`, which is no term of it`)
  return term
}

function symbols(expression: string, terms: ReadonlyMap<string, Term>): string {
  return expression.replace(placeholder, (_, name: string) => termOf(name, terms).symbol)
}

function figures(expression: string, terms: ReadonlyMap<string, Term>): string {
  return expression.replace(placeholder, (all, name: string, at: number) => {
    const { value, unit } = termOf(name, terms)
    const figure = shown(value, unit, 10)
    const powered = /^[²³^]/.test(expression.slice(at + all.length))
    return value < 0 || (unit !== '' && powered) ? `(${figure})` : figure
  })
}

/** `t = 90 s`, not `t = 90 s = 90 s`. */
function worked(symbol: string, sum: string, result: string): string {
  return sum === result ? `${symbol} = ${result}` : `${symbol} = ${sum} = ${result}`
}

function shown(value: number, unit: string, digits = 6): string {
  return unit === '' ? plainNumber(value, digits) : `${plainNumber(value, digits)} ${unit}`
}
