import { unpack } from './ledger.js'
import type { Machine } from './machine.js'
import { firstLedger, modelOf } from './model.js'
import type { Progress, Snapshot } from './snapshot.js'

export const noProgress: Progress = { readings: {}, waits: {}, unlocked: [] }

/** Where every run begins: at the machine's first state, with nobody on the crew and nothing done. */
export function start(machine: Machine): Snapshot {
  const model = modelOf(machine)
  return {
    state: machine.start,
    ledger: unpack(model, firstLedger(model)),
    progress: noProgress,
    locks: [],
    crew: [],
    deadlines: {},
    recheck: [],
    status: 'new',
    at: ''
  }
}
