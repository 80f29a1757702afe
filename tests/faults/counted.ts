/** Counts what was injected, by kind, and tells it with the seed: a run of the tests says what it did. */
export function counted(seed: number): {
  readonly one: (kind: string) => void
  readonly total: () => number
  readonly of: (kind: string) => number
  readonly tell: (title: string) => void
} {
  const kinds = new Map<string, number>()
  const total = (): number => [...kinds.values()].reduce((sum, amount) => sum + amount, 0)
  return {
    one: (kind) => {
      kinds.set(kind, (kinds.get(kind) ?? 0) + 1)
    },
    total,
    of: (kind) => kinds.get(kind) ?? 0,
    tell: (title) => {
      const parts = [...kinds].map(([kind, amount]) => `${amount} ${kind}`).join(', ')
      process.stdout.write(`${title}, seed ${seed}: ${total()} injected faults: ${parts}\n`)
    }
  }
}
