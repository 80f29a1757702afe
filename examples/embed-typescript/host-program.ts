/**
 * A host program that steps a machine with an interface of its own, here a list of answers in the code.
 * The types come from `lockwright build --as typescript`: inside `case 'window'` only what the step `window` asks
 * for compiles. Nothing is recorded here; a host for real work hands the events to a `Run` of @lockwright/records.
 */
import type { PersonId, Refusal } from '@lockwright/machine'
import { prove } from '@lockwright/proof'
import { advance, machine, type StateName, start } from './booster-pump.generated.js'

const by = 'tor' as PersonId

/** The clock of this example: a minute an answer. Real hosts read the clock; the machine never does. */
function clock(): () => string {
  let minute = 0
  return () => new Date(Date.UTC(2027, 2, 2, 8, minute++)).toISOString()
}

/** Where a walk came to, and by which steps; or why the machine refused an answer. */
export type Walk =
  | { readonly ok: true; readonly at: StateName; readonly passed: readonly StateName[] }
  | { readonly ok: false; readonly refusals: readonly Refusal[] }

/** Walks to the first lock and tries to go on without hanging it. */
export function walkPastTheFirstLock(): Walk {
  // A machine is proved again wherever it comes from: the file could have been changed by hand.
  const verdict = prove(machine)
  if (verdict.kind !== 'proved') throw new Error(`the machine in the generated module is ${verdict.kind}`)
  const now = clock()
  const passed: StateName[] = []
  let taken = advance(start(), { kind: 'opened', mode: 'rehearsal', at: now(), by })
  while (taken.ok) {
    const { snapshot } = taken
    passed.push(snapshot.state)
    const stamp = { at: now(), by }
    switch (snapshot.state) {
      case 'prepare.gather':
        taken = advance(snapshot, { ...stamp, kind: 'done', state: snapshot.state, acknowledged: [], boxes: allTools })
        break
      case 'prepare.1':
        taken = advance(snapshot, {
          ...stamp,
          kind: 'choice',
          state: snapshot.state,
          answer: 'series-t',
          acknowledged: [],
          boxes: []
        })
        break
      case 'window':
        taken = advance(snapshot, {
          ...stamp,
          kind: 'choice',
          state: snapshot.state,
          answer: 'answer-1',
          acknowledged: [],
          boxes: []
        })
        break
      case 'lock-out.1':
        taken = advance(snapshot, { ...stamp, kind: 'done', state: snapshot.state, acknowledged: [], boxes: [] })
        break
      case 'lock-out.2':
        taken = advance(snapshot, {
          ...stamp,
          kind: 'done',
          state: snapshot.state,
          acknowledged: [],
          boxes: ['box-1', 'box-2']
        })
        break
      case 'lock-out.3':
        // It compiles, because the step ends with `done`; it is refused, because no lock hangs yet.
        taken = advance(snapshot, {
          ...stamp,
          kind: 'done',
          state: snapshot.state,
          acknowledged: ['notice-1'],
          boxes: []
        })
        break
      default:
        return { ok: true, at: snapshot.state, passed }
    }
  }
  return { ok: false, refusals: taken.refusals }
}

const allTools = [
  'have-padlocks',
  'have-driver',
  'have-torque',
  'have-tester',
  'have-gauge',
  'have-module',
  'have-gloves',
  'have-shield'
] as const
