import type { Run, Signer } from '@lockwright/records'
import type { RunPort } from '@lockwright/runner-terminal'

/** A run in which events of these kinds are signed with a key that was unlocked before, whoever answers for the rest. */
export function signingPort(run: Run, signer: Signer, kinds: readonly string[]): RunPort {
  return {
    mode: run.mode,
    machine: run.machine,
    get snapshot() {
      return run.snapshot
    },
    take: (event) => (kinds.includes(event.kind) ? run.sign(event, signer) : run.take(event)),
    sign: (event, other) => run.sign(event, other)
  }
}
