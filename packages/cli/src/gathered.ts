/** Gathers the values of an option that may be given several times. */
export function gathered(value: string, before: readonly string[] = []): string[] {
  return [...before, value]
}
