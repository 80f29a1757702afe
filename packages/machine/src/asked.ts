import { pack } from './ledger.js'
import type { Machine } from './machine.js'
import { isPresent, modelOf } from './model.js'
import type { Ledger } from './snapshot.js'
import type { Input, Limits, State } from './state.js'

/** The inputs that a state asks for on this generation: what is absent is not asked. */
export function askedInputs(machine: Machine, ledger: Ledger, state: State): readonly Input[] {
  const model = modelOf(machine)
  const packed = pack(model, ledger)
  return state.inputs.filter((input) => {
    switch (input.kind) {
      case 'lock':
      case 'unlock':
        return isPresent(model, packed, { kind: 'point', id: input.point })
      case 'box':
      case 'reading':
      case 'wait':
        return input.source === null || isPresent(model, packed, { kind: 'source', id: input.source })
    }
  })
}

/**
 * Whether a value lies within limits. A level that must fall below a limit counts by its size, so that a
 * tester with its leads swapped, which shows -600 V, proves nothing dead. A limit of 0 asks for 0.
 */
export function withinLimits({ min, max, below }: Limits, value: number): boolean {
  if (min !== null && value < min) return false
  if (max !== null && value > max) return false
  if (below === null) return true
  return below === 0 ? value === 0 : Math.abs(value) < below
}
