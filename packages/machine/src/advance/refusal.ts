import type { Advanced, Refusal } from '../snapshot.js'

/** An event that is not taken: the run stands where it stood. */
export function refuse(kind: Refusal['kind'], why: string, mend: string, obligation: string | null = null): Advanced {
  return { ok: false, refusals: [{ kind, obligation, why, mend }] }
}

/** Several reasons at once; at least one. */
export function refuseAll(refusals: readonly Refusal[]): Advanced | null {
  const [first, ...others] = refusals
  return first === undefined ? null : { ok: false, refusals: [first, ...others] }
}

/** `a`, `a and b`, `a, b and c`. */
export function listed(names: readonly string[]): string {
  return names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`
}
