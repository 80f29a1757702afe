import type { EnergyParameters } from '../energy-parameters.js'
import {
  criticalRatio,
  type VentingProcess,
  type VentingVessel,
  ventingTime,
  ventingTimeConstant
} from '../formulas/blow-down.js'
import { calculate } from './calculate.js'
import type { Outcome } from './calculation.js'
import { absolutePressure, atmosphereOf, gasConstantOf, heatRatioOf } from './gas-inputs.js'

type VentingNeed = 'pressure' | 'volume' | 'bleed-bore' | 'temperature' | 'discharge-coefficient' | 'safe-below'

/** Isothermal and adiabatic; the truth lies between them. */
export function gasVentingOf(parameters: EnergyParameters): readonly [Outcome, Outcome] {
  return [ventingOf(parameters, 'isothermal'), ventingOf(parameters, 'adiabatic')]
}

/** The one to wait for: the longer of the two, over the range of both. */
export function gasTimeOf(parameters: EnergyParameters): Outcome {
  const [isothermal, adiabatic] = gasVentingOf(parameters)
  if (isothermal.kind !== 'computed' || adiabatic.kind !== 'computed') return isothermal
  const [one, other] = [isothermal.calculation, adiabatic.calculation]
  const longer = other.worst > one.worst ? other : one
  const result = { low: Math.min(one.result.low, other.result.low), high: longer.result.high }
  return { kind: 'computed', calculation: { ...longer, result } }
}

/**
 * The longest time constant with which the pressure above ambient falls anywhere on the way, in the worst case:
 * τ at constant temperature; with no heat the gas cools and the flow slows, by (P0/Pc)^((γ−1)/(2γ))/γ at most, and the
 * subsonic tail is faster than either. Undefined where the time cannot be computed.
 */
export function slowestVentingConstant(parameters: EnergyParameters): number | undefined {
  const [outcome] = gasVentingOf(parameters)
  if (outcome.kind !== 'computed') return undefined
  const step = (symbol: string): number =>
    outcome.calculation.steps.find((candidate) => candidate.symbol === symbol)?.value ?? Number.NaN
  const heatRatio = heatRatioOf(parameters).value
  const ratio = Math.max(1, step('P0') / step('Pc'))
  return step('τ') * Math.max(1, ratio ** ((heatRatio - 1) / (2 * heatRatio)) / heatRatio)
}

const words = {
  isothermal: {
    note: 'At constant temperature: the longer of the two times, unless the pressure falls about a hundredfold.',
    choked: '{constant}·ln({start}/max({end}; {choking}))'
  },
  adiabatic: {
    note: 'With no heat from the vessel: the shorter of the two times, unless the pressure falls about a hundredfold.',
    choked:
      '(2·{constant}/({heat-ratio} − 1))·(({start}/max({end}; {choking}))^(({heat-ratio} − 1)/(2·{heat-ratio})) − 1)'
  }
} as const

function ventingOf(parameters: EnergyParameters, process: VentingProcess): Outcome {
  const atmosphere = atmosphereOf(parameters)
  const heatRatio = heatRatioOf(parameters)
  const gasConstant = gasConstantOf(parameters)
  const start = absolutePressure(parameters, 'pressure', 'P0', atmosphere.value, 'start')
  const end = absolutePressure(parameters, 'safe-below', 'P', atmosphere.value, 'end')
  const choking = atmosphere.value / criticalRatio(heatRatio.value)
  const vesselOf = (values: Readonly<Record<VentingNeed, number>>): VentingVessel => ({
    volume: values.volume,
    area: (Math.PI / 4) * values['bleed-bore'] ** 2,
    dischargeCoefficient: values['discharge-coefficient'],
    heatRatio: heatRatio.value,
    gasConstant: gasConstant?.value ?? 0,
    temperature: values.temperature
  })
  const reckon = (values: Readonly<Record<VentingNeed, number>>, downTo: number): number =>
    ventingTime(
      vesselOf(values),
      {
        from: start.inside(values.pressure),
        to: Math.max(end.inside(values['safe-below']), downTo),
        outside: atmosphere.value
      },
      process
    )
  return calculate(parameters, {
    id: `gas-venting-${process}`,
    title: `Time to vent through the bore, ${process}`,
    symbol: 't',
    dimension: 'time',
    needs: {
      pressure: { symbol: start.symbol, dimension: 'pressure', effect: 'raises' },
      volume: { symbol: 'V', dimension: 'volume', effect: 'raises' },
      'bleed-bore': { symbol: 'd', dimension: 'length', effect: 'lowers' },
      temperature: { symbol: 'T', dimension: 'temperature', effect: 'lowers' },
      'discharge-coefficient': { symbol: 'Cd', dimension: 'number', effect: 'lowers' },
      'safe-below': { symbol: end.symbol === 'P' ? 'P' : 'ps', dimension: 'pressure', effect: 'lowers' }
    },
    lacks: gasConstant === undefined ? ['gas'] : [],
    constants: [atmosphere, heatRatio, ...(gasConstant === undefined ? [] : [gasConstant])],
    steps: [
      ...start.steps,
      ...end.steps,
      {
        name: 'area',
        symbol: 'A',
        unit: 'm²',
        expression: 'π·{bleed-bore}²/4',
        value: (values) => vesselOf(values).area
      },
      {
        name: 'constant',
        symbol: 'τ',
        unit: 's',
        expression:
          '{volume}/({discharge-coefficient}·{area}·√({heat-ratio}·{gas-constant}·{temperature})·(2/({heat-ratio} + 1))^(({heat-ratio} + 1)/(2·({heat-ratio} − 1))))',
        value: (values) => ventingTimeConstant(vesselOf(values))
      },
      {
        name: 'choking',
        symbol: 'Pc',
        unit: 'Pa',
        expression: '{atmosphere}/(2/({heat-ratio} + 1))^({heat-ratio}/({heat-ratio} − 1))',
        value: () => choking
      },
      {
        name: 'choked',
        symbol: 't1',
        unit: 's',
        expression: words[process].choked,
        value: (values) => reckon(values, choking)
      },
      {
        name: 'tail',
        symbol: 't2',
        unit: 's',
        expression: 'the subsonic rest, from Pc to P, by quadrature',
        value: (values) => reckon(values, 0) - reckon(values, choking)
      }
    ],
    expression: '{choked} + {tail}',
    evaluate: (values) => reckon(values, 0),
    whyNever: (values) =>
      end.inside(values['safe-below']) < atmosphere.value
        ? 'Gas does not vent to a pressure below the ambient one.'
        : 'With nothing open the vessel does not vent.',
    source: 'a process-engineering text on vessel blow-down of ideal gases',
    notes: [words[process].note, 'A bore that is frozen, fouled or half shut vents slower: only a gauge is proof.']
  })
}
