import type { EnergyParameters } from '../energy-parameters.js'
import {
  pccAtmosphere,
  pccDistance,
  pccEnergy,
  pccScaledDistance,
  pccTntHeat,
  scaledDistance,
  tntEquivalent
} from '../formulas/burst-distance.js'
import { availabilityEnergy, brodeEnergy, isentropicEnergy, isothermalEnergy } from '../formulas/gas-expansion.js'
import { calculate, type Recipe } from './calculate.js'
import type { Outcome } from './calculation.js'
import { absolutePressure, atmosphereOf, heatRatioOf } from './gas-inputs.js'

const vacuumNote =
  'It is at or below the ambient pressure and gives nothing up; a vacuum still pulls, and fills when it is opened.'

type GasNeed = 'pressure' | 'volume'

/** What all methods have in common; the pressure is shown as absolute where it is declared above ambient. */
function recipeOf(
  parameters: EnergyParameters,
  method: {
    readonly id: string
    readonly title: string
    readonly expression: string
    readonly reckon: (inside: number, volume: number, outside: number, heatRatio: number) => number
    readonly usesHeatRatio: boolean
    readonly source: string
    readonly note: string
  }
): Recipe<GasNeed> {
  const atmosphere = atmosphereOf(parameters)
  const heatRatio = heatRatioOf(parameters)
  const { inside, symbol, steps } = absolutePressure(parameters, 'pressure', 'P2')
  return {
    id: method.id,
    title: method.title,
    symbol: 'E',
    dimension: 'energy',
    needs: {
      pressure: { symbol, dimension: 'pressure', effect: 'raises' },
      volume: { symbol: 'V', dimension: 'volume', effect: 'raises' }
    },
    constants: [atmosphere, ...(method.usesHeatRatio ? [heatRatio] : [])],
    steps,
    expression: method.expression,
    evaluate: ({ pressure, volume }) => method.reckon(inside(pressure), volume, atmosphere.value, heatRatio.value),
    source: method.source,
    whenNothing: vacuumNote,
    notes: [
      method.note,
      ...(method.usesHeatRatio && heatRatio.assumed
        ? ['γ is that of air or nitrogen: where it is another gas, name it, for a smaller γ holds more.']
        : [])
    ]
  }
}

/** The energy that a gas is known by. */
export function gasEnergyOf(parameters: EnergyParameters): Outcome {
  return calculate(
    parameters,
    recipeOf(parameters, {
      id: 'gas-isentropic',
      title: 'Energy of the gas, isentropic expansion',
      expression:
        '{inside}·{volume}/({heat-ratio} − 1)·(1 − ({atmosphere}/{inside})^(({heat-ratio} − 1)/{heat-ratio}))',
      reckon: isentropicEnergy,
      usesHeatRatio: true,
      source: 'Understanding Explosions, appendix B; ASME PCC-2 article 501, general form',
      note: 'The work of a fast expansion to the ambient pressure, as in a burst.'
    })
  )
}

/** Brode, isothermal and availability, in this order. */
export function gasOtherEnergiesOf(parameters: EnergyParameters): readonly Outcome[] {
  return [
    calculate(
      parameters,
      recipeOf(parameters, {
        id: 'gas-brode',
        title: 'Energy of the gas, after Brode',
        expression: '({inside} − {atmosphere})·{volume}/({heat-ratio} − 1)',
        reckon: brodeEnergy,
        usesHeatRatio: true,
        source: 'Understanding Explosions, appendix B',
        note: 'What heating at constant volume would take; larger than the work of a fast expansion.'
      })
    ),
    calculate(
      parameters,
      recipeOf(parameters, {
        id: 'gas-isothermal',
        title: 'Energy of the gas, isothermal expansion',
        expression: '{inside}·{volume}·ln({inside}/{atmosphere})',
        reckon: isothermalEnergy,
        usesHeatRatio: false,
        source: 'Understanding Explosions, appendix B; form as in a page on energy in pressure vessels',
        note: 'The work of a slow expansion, which no ideal gas exceeds.'
      })
    ),
    calculate(
      parameters,
      recipeOf(parameters, {
        id: 'gas-availability',
        title: 'Energy of the gas, thermodynamic availability',
        expression: '{inside}·{volume}·(ln({inside}/{atmosphere}) − (1 − {atmosphere}/{inside}))',
        reckon: availabilityEnergy,
        usesHeatRatio: false,
        source: 'Understanding Explosions, appendix B; form from memory',
        note: 'The isothermal work less what pushes the surroundings away.'
      })
    )
  ]
}

const pccNote = 'For air and nitrogen; an energy of a pneumatic test, used here as a yardstick.'

/** Energy, TNT equivalence and distance after ASME PCC-2. */
export function gasPccOf(parameters: EnergyParameters): readonly Outcome[] {
  const { inside, symbol, steps } = absolutePressure(parameters, 'pressure', 'Pt', pccAtmosphere)
  const needs = {
    pressure: { symbol, dimension: 'pressure', effect: 'raises' },
    volume: { symbol: 'V', dimension: 'volume', effect: 'raises' }
  } as const
  const atmosphere = {
    name: 'atmosphere',
    symbol: 'Pa',
    value: pccAtmosphere,
    unit: 'Pa',
    source: 'ASME PCC-2 article 501, at second hand'
  }
  const energy = ({ pressure, volume }: Readonly<Record<GasNeed, number>>): number =>
    pccEnergy(inside(pressure), volume)
  const stored = {
    name: 'energy',
    symbol: 'E',
    unit: 'J',
    expression: '2.5·{inside}·{volume}·(1 − ({atmosphere}/{inside})^0.286)',
    value: energy
  }
  const heat = {
    name: 'heat',
    symbol: 'q',
    value: pccTntHeat,
    unit: 'J/kg',
    source: 'ASME PCC-2 article 501, equation II-3, at second hand'
  }
  const tnt = {
    name: 'tnt',
    symbol: 'TNT',
    unit: 'kg',
    expression: '{energy}/{heat}',
    value: (values: Readonly<Record<GasNeed, number>>) => tntEquivalent(energy(values))
  }
  const common = { needs, notes: [pccNote] }
  return [
    calculate(parameters, {
      ...common,
      id: 'gas-pcc-energy',
      title: 'Energy of the gas, ASME PCC-2',
      symbol: 'E',
      dimension: 'energy',
      constants: [atmosphere],
      steps,
      expression: stored.expression,
      evaluate: energy,
      source: 'ASME PCC-2 article 501, equation II-2, at second hand'
    }),
    calculate(parameters, {
      ...common,
      id: 'gas-pcc-tnt',
      title: 'TNT equivalence, ASME PCC-2',
      symbol: 'TNT',
      dimension: 'mass',
      constants: [atmosphere, heat],
      steps: [...steps, stored],
      expression: tnt.expression,
      evaluate: tnt.value,
      source: 'ASME PCC-2 article 501, equation II-3, at second hand'
    }),
    calculate(parameters, {
      ...common,
      id: 'gas-pcc-distance',
      title: 'Distance to keep in a pneumatic test, ASME PCC-2',
      symbol: 'R',
      dimension: 'length',
      constants: [
        atmosphere,
        heat,
        {
          name: 'factor',
          symbol: 'Rs',
          value: pccScaledDistance,
          unit: 'm/kg^(1/3)',
          source: 'ASME PCC-2 article 501, equation III-1, smallest value, at second hand'
        }
      ],
      steps: [
        ...steps,
        stored,
        tnt,
        {
          name: 'scaled',
          symbol: 'R1',
          unit: 'm',
          expression: '{factor}·(2·{tnt})^(1/3)',
          value: (values) => scaledDistance(tnt.value(values))
        }
      ],
      expression: 'max({scaled}; 30 m up to 135.5 MJ, 60 m up to 271 MJ)',
      evaluate: (values) => pccDistance(energy(values)),
      source: 'ASME PCC-2 article 501, equation III-1 and its floors, at second hand'
    })
  ]
}
