/** The obligations about the ledger, numbered for good: `-DCHECK=<number>` or `-DCHECK=<NAME>` checks one alone. */
export const ledgerObligations = [
  'work-isolated',
  'work-released',
  'work-proven',
  'rebuild-restrained',
  'control-order',
  'relieve-isolated',
  'restrain-locked',
  'ground-after-proof',
  'tryout-clear',
  'tryout-done',
  'void-proof',
  'live-permitted',
  'left-on',
  'operate-closed',
  'remove-clear',
  'inspected-before-energy',
  'clear-before-energy',
  'restraints-off',
  'told-before-start',
  'relock-after-test',
  'device-state',
  'all-returned',
  'stop-safe',
  'hardware-known'
] as const

export type LedgerObligation = (typeof ledgerObligations)[number]

/** The name of the variable that holds what was found of an obligation last, and that its assertion names. */
export function flagOf(obligation: LedgerObligation): string {
  return obligation.replaceAll('-', '_')
}

/** The macros of the obligations that the model asks for. */
export function obligationMacros(asked: ReadonlySet<LedgerObligation>): readonly string[] {
  const used = ledgerObligations.filter((id) => asked.has(id))
  const nameOf = (id: LedgerObligation): string => flagOf(id).toUpperCase()
  return [
    ...used.map((id) => `#define ${nameOf(id)} ${ledgerObligations.indexOf(id) + 1}`),
    '#ifdef CHECK',
    '#define must(flag, number, holds) flag = (CHECK != number || (holds)); assert(flag); flag = true',
    '#else',
    '#define must(flag, number, holds) flag = (holds); assert(flag); flag = true',
    '#endif',
    ...used.map((id) => `bool ${flagOf(id)} = true;`),
    ...used.map((id) => `#define must_${flagOf(id)}(holds) must(${flagOf(id)}, ${nameOf(id)}, holds)`)
  ]
}
