import type { PersonId } from '@lockwright/machine'
import type { ProvedMachine } from '@lockwright/proof'
import { isIssued, openSite, type Run, type RunMode, type Site, systemClock } from '@lockwright/records'
import {
  type Answers,
  type Ended,
  type RunPort,
  runAnswers,
  type SessionOptions,
  scriptedClock,
  sleepUntil
} from '@lockwright/runner-terminal'
import { answersFrom, passphraseFrom } from '../answers-from.js'
import { type ExitCode, exit } from '../exit.js'
import { fromRecords } from '../from-records.js'
import { openRun } from '../open-run.js'
import { CannotRun } from '../read-input.js'
import { sayNote } from '../say.js'
import { shownPath } from '../shown-path.js'
import { tellOutcome } from '../tell-outcome.js'
import type { StepFlags } from './step.js'
import { onTerminal } from './step-on-terminal.js'
import { chooseOpenRun } from './step-resume.js'
import { stepSession } from './step-session.js'

/** Steps a run of a proved procedure, recorded in the site as it goes. */
export function stepAtSite(machine: ProvedMachine, flags: StepFlags): Promise<ExitCode> {
  const site = fromRecords(openSite(flags.site ?? ''))
  const mode: RunMode = flags.rehearse === true ? 'rehearsal' : isIssued(site, machine) ? 'issued' : 'draft'
  if (mode === 'draft') sayNote('No coordinator has issued this procedure here: the run is marked DRAFT for good.')
  return stepRun(site, machine, mode, flags)
}

/** Lists the open runs of the site, and goes on with the one that is chosen. */
export async function goOnAtSite(flags: StepFlags): Promise<ExitCode> {
  const site = fromRecords(openSite(flags.site ?? ''))
  const chosen = await chooseOpenRun(site, flags.run)
  if (chosen === null) return exit.well
  if (flags.by === undefined) throw new CannotRun('who works with it is not said; give --by and an id of the roster.')
  const { summary, machine } = chosen
  return stepRun(site, machine, summary.mode, { ...flags, run: summary.run })
}

async function stepRun(site: Site, machine: ProvedMachine, mode: RunMode, flags: StepFlags): Promise<ExitCode> {
  const answers = flags.answers === undefined ? null : answersFrom(flags.answers)
  const times = answers?.clock ?? null
  if (times !== null && mode === 'issued') throw new CannotRun(noScriptedTimes)
  const scripted = times === null ? null : scriptedClock(times.start)
  const clock = scripted ?? systemClock
  const by = flags.by as PersonId
  const { run, takenUp } = openRun({ site, machine, mode, by, clock, run: flags.run, fresh: flags.new === true })
  tellRun(run, takenUp)
  const now = () => clock.now().at
  const session = stepSession({ site, run, person: by, now, takenUp, scripted: scripted !== null })
  try {
    const ended = answers === null ? await onTerminal(run, session, flags) : await fromFile(run, session, answers)
    tellNext(run, site)
    return ended === 'finished' || ended === 'stopped' ? exit.well : exit.findings
  } finally {
    run.close()
  }

  async function fromFile(run: RunPort, session: SessionOptions, answers: Answers): Promise<Ended | null> {
    const outcome = await runAnswers(run, answers, {
      ...session,
      clock:
        scripted !== null
          ? { kind: 'scripted', clock: scripted }
          : { kind: 'computer', now, sleepUntil: (at, aborted) => sleepUntil(at, now, aborted) },
      onPaper: false,
      passphrase: (from, person) => (from === null ? ownPassphrase(person, flags) : passphraseFrom(from)),
      watch: sayNote
    })
    return tellOutcome(outcome)
  }
}

const noScriptedTimes =
  'the answers bring their own times (`clock:`), and this run is for work on the real machine. Leave the times out, ' +
  'rehearse it with --rehearse, or enter a completed sheet with `lockwright enter`.'

/** Where an answer does not say where a passphrase is: that of `--by`, as every command is given it. */
function ownPassphrase(person: PersonId, { by, passphraseFile }: StepFlags): ReturnType<typeof passphraseFrom> {
  if (person === by && passphraseFile !== undefined) return passphraseFrom(`file:${passphraseFile}`)
  const given = person === by ? (process.env['LOCKWRIGHT_PASSPHRASE'] ?? '') : ''
  return given === ''
    ? { ok: false, why: `The answer does not say where the passphrase of \`${person}\` is.` }
    : { ok: true, value: given }
}

function tellRun(run: Run, takenUp: boolean): void {
  sayNote(takenUp ? `going on with run ${run.id}, exactly where it was` : `opened run ${run.id}`)
  if (run.setAside === null) return
  sayNote(
    `The last line of the journal was cut off in the middle and was set aside, unread: ${run.setAside.file} ` +
      `(${run.setAside.bytes} bytes). Nothing whole was lost.`
  )
}

function tellNext(run: Run, site: Site): void {
  sayNote(`The journal is ${shownPath(run.file)}; \`lockwright audit ${shownPath(site.folder)}\` checks it.`)
}
