import { type ExitCode, exit } from '../exit.js'
import { provedMachine } from '../proved-machine.js'
import { CannotRun } from '../read-input.js'

export interface StepFlags {
  readonly site?: string
  readonly by?: string
  readonly answers?: string
  readonly plain?: true
  readonly run?: string
  readonly new?: true
  readonly rehearse?: true
  readonly path?: string
  readonly clock?: string
  readonly passphraseFile?: string
}

/** Steps a run; without a procedure, one of those that are open. */
export async function step(file: string | undefined, flags: StepFlags): Promise<ExitCode> {
  refuseUnfit(file, flags)
  const proved = file === undefined ? undefined : provedMachine(file)
  if (proved === null) return exit.findings
  // What is recorded nowhere needs neither the records nor their reports: a rehearsal starts without them.
  if (proved !== undefined && flags.site === undefined) {
    const { rehearse } = await import('./step-rehearsal.js')
    return rehearse(proved.machine, flags)
  }
  const { goOnAtSite, stepAtSite } = await import('./step-at-site.js')
  return proved === undefined ? goOnAtSite(flags) : stepAtSite(proved.machine, flags)
}

function refuseUnfit(file: string | undefined, { site, by, rehearse, path, clock, answers }: StepFlags): void {
  const kept = site !== undefined
  if (!kept && (file === undefined || rehearse !== true)) {
    throw new CannotRun(
      'the site folder is not said, in which the run is recorded; give --site, or --rehearse for a rehearsal that is ' +
        'recorded nowhere.'
    )
  }
  if (kept && file !== undefined && by === undefined) {
    throw new CannotRun('who works with it is not said; give --by and an id of the roster.')
  }
  if (path !== undefined && (kept || rehearse !== true)) {
    throw new CannotRun('--path leads along a rehearsal that is recorded nowhere: give --rehearse and no --site.')
  }
  if (clock !== undefined && (kept || rehearse !== true || answers !== undefined)) {
    throw new CannotRun(
      'a clock that stands is for a rehearsal on the screen that is recorded nowhere: give --rehearse, no --site and no --answers.'
    )
  }
}
