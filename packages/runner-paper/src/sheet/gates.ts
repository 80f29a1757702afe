import type { StateKind } from '@lockwright/machine'

const gateKinds: ReadonlySet<StateKind> = new Set<StateKind>([
  'isolate',
  'lock',
  'relieve',
  'restrain',
  'prove',
  'tryout',
  'signoff',
  'inspect',
  'clear',
  'remove',
  'unlock',
  'energize'
])

/** Steps that cannot end in a deviation: they are done, repeated, or the work stops. */
export function isGate(kind: StateKind): boolean {
  return gateKinds.has(kind)
}
