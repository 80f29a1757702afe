/** Obligations of the contract that are not checked yet. A report names them as such, never as proven. */
export const declaredLater: readonly { readonly id: string; readonly statement: string }[] = [
  { id: 'lamp-no-proof', statement: 'a dark indicator is not a verification' },
  { id: 'tester-proven', statement: 'a voltage tester is proven on a known source before and after' },
  { id: 'conductors-covered', statement: 'every conductor pair and every conductor to earth is tested' },
  { id: 'tester-rated', statement: 'the tester fits the circuit' },
  { id: 'gauge-fits', statement: 'the instrument can show the level that it is asked to show' },
  { id: 'gloves-rated', statement: 'until it is proven dead it is treated as live: gloves fit the voltage' },
  { id: 'proof-qualified', statement: 'until it is proven dead it is treated as live: a qualified person does it' },
  { id: 'wait-enough', statement: "a wait is no shorter than the label's and the worst-case decay" }
]
