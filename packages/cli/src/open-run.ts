import type { PersonId } from '@lockwright/machine'
import { digestOf } from '@lockwright/machine'
import { type ProvedMachine, prove } from '@lockwright/proof'
import {
  type Clock,
  draftMachine,
  issuedMachine,
  listRuns,
  type Run,
  type RunMode,
  type RunSummary,
  resumeRun,
  type Site,
  startRun,
  systemClock
} from '@lockwright/records'
import { fromRecords } from './from-records.js'
import { CannotRun } from './read-input.js'
import { sayNote } from './say.js'

export interface OpenRun {
  readonly site: Site
  /** What the file on the command line was proved to be. */
  readonly machine: ProvedMachine
  readonly mode: RunMode
  readonly by: PersonId
  readonly clock: Clock
  /** Go on with this run. */
  readonly run: string | undefined
  /** Open a new one even where one is open. */
  readonly fresh: boolean
}

/** The run to step: the one that was named, else the open run of this very machine, else a new one. */
export function openRun(request: OpenRun): { readonly run: Run; readonly takenUp: boolean } {
  const found = request.fresh ? null : runToGoOnWith(request)
  if (found === null) return { run: fromRecords(startRun(request)), takenUp: false }
  const machine = machineOf(request, found)
  const { site, clock } = request
  return { run: fromRecords(resumeRun({ site, run: found.run, machine, clock })), takenUp: true }
}

/** A run that was entered from paper in part, to be gone on with by whoever began to enter it. */
export function goOnWithPaper({
  site,
  machine,
  mode,
  run,
  enteredBy
}: Pick<OpenRun, 'site' | 'machine' | 'mode'> & { readonly run: string; readonly enteredBy: PersonId }): Run {
  const named = listRuns(site).runs.find((one) => one.run === run)
  if (named === undefined) throw new CannotRun(`there is no run \`${run}\` in ${site.folder}.`)
  if (!named.onPaper) throw new CannotRun(`run \`${run}\` is stepped on the screen: go on with it with \`step --run\`.`)
  if (named.status === 'finished' || named.status === 'stopped')
    throw new CannotRun(`run \`${run}\` is ${named.status}: nothing more can be entered in it.`)
  if (named.machine !== digestOf(machine) || named.mode !== mode)
    throw new CannotRun(
      `run \`${run}\` was begun with another text of the procedure, or before it was issued. Give the text that was printed.`
    )
  const resumed = fromRecords(resumeRun({ site, run: named.run, machine, clock: systemClock }))
  const began = resumed.entries[0]?.entered?.by
  if (began === enteredBy) return resumed
  resumed.close()
  throw new CannotRun(`run \`${run}\` is entered by \`${began}\`, who answers for the copy; give --by ${began}.`)
}

function runToGoOnWith({ site, machine, mode, run }: OpenRun): RunSummary | null {
  const { runs } = listRuns(site)
  if (run !== undefined) {
    const named = runs.find((one) => one.run === run)
    if (named === undefined) throw new CannotRun(`there is no run \`${run}\` in ${site.folder}.`)
    return named
  }
  const digest = digestOf(machine)
  const open = runs.filter((one) => isOpen(one) && one.machine === digest && one.mode === mode)
  for (const one of runs.filter(
    (other) => isOpen(other) && other.procedure === machine.procedure && other.machine !== digest
  )) {
    sayNote(
      `Run ${one.run} of another text of this procedure is still open (opened ${one.openedAt} by ${one.openedBy}): its ` +
        `locks may hang. Go on with it first: --run ${one.run}`
    )
  }
  const [only, ...more] = open
  if (more.length === 0) return only ?? null
  const ids = open.map((one) => `  ${one.run}, opened ${one.openedAt} by ${one.openedBy}`)
  throw new CannotRun(
    `several runs of this procedure are open; say which with --run, or give --new:\n${ids.join('\n')}`
  )
}

export function isOpen({ onPaper, status }: RunSummary): boolean {
  return !onPaper && (status === 'running' || status === 'paused')
}

/** The machine that the journal names. Where the file has changed since, the one that the site kept. */
function machineOf({ site, machine }: OpenRun, summary: RunSummary): ProvedMachine {
  return summary.machine === digestOf(machine) ? machine : keptMachine(site, summary)
}

/** The machine that the site kept for a run, proved again. */
export function keptMachine(site: Site, { machine: digest, mode, run }: RunSummary): ProvedMachine {
  const kept =
    mode === 'issued' ? fromRecords(issuedMachine(site, digest)).machine : fromRecords(draftMachine(site, digest))
  const verdict = prove(kept)
  if (verdict.kind === 'proved') return verdict.machine
  throw new CannotRun(
    `the machine that run \`${run}\` was begun with is not proved any more; stop the work there by hand.`
  )
}
