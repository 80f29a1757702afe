export type GasName = 'air' | 'nitrogen' | 'argon' | 'carbon dioxide' | 'helium'

export interface Gas {
  readonly heatRatio: number
  /** Of the gas, J/(kg·K). */
  readonly gasConstant: number
  readonly source: string
}

/** Molar gas constant, exact since 2019, J/(mol·K). */
const molarGasConstant = 8.31446261815324

function gas(heatRatio: number, gramsPerMole: number): Gas {
  const source = `γ ${heatRatio} and ${gramsPerMole} g/mol from memory`
  return { heatRatio, gasConstant: (molarGasConstant * 1000) / gramsPerMole, source }
}

/** Ideal-gas figures near room temperature. */
export const gases: Readonly<Record<GasName, Gas>> = {
  air: {
    heatRatio: 1.4,
    gasConstant: 287.05,
    source: 'γ as ASME PCC-2 article 501 takes it; 287.05 J/(kg·K) from memory'
  },
  nitrogen: gas(1.4, 28.0134),
  argon: gas(1.667, 39.948),
  'carbon dioxide': gas(1.289, 44.0095),
  helium: gas(1.667, 4.002602)
}
