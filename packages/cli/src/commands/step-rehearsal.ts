import type { PersonId } from '@lockwright/machine'
import type { ProvedMachine } from '@lockwright/proof'
import {
  type Ended,
  guideAlong,
  type NumberedWay,
  numberedWays,
  rehearsalRun,
  runAnswers,
  runningClock,
  type SessionOptions,
  scriptedClock,
  standingClock
} from '@lockwright/runner-terminal'
import { answersFrom } from '../answers-from.js'
import { type ExitCode, exit } from '../exit.js'
import { CannotRun } from '../read-input.js'
import { sayNote } from '../say.js'
import { tellOutcome } from '../tell-outcome.js'
import type { StepFlags } from './step.js'
import { onTerminal } from './step-on-terminal.js'

/** How much a clock that stands moves on with each answer. */
const paceSeconds = 30

/** The records, and their clock with them, are not loaded for what is recorded nowhere. */
const now = (): string => new Date().toISOString()

/** Somebody to rehearse where nobody is named. */
const trainee = 'trainee' as PersonId

/** A rehearsal without a site: no keys, no journal, nothing that could be taken for real. */
export async function rehearse(machine: ProvedMachine, flags: StepFlags): Promise<ExitCode> {
  const person = (flags.by ?? trainee) as PersonId
  const along = flags.path === undefined ? null : wayOf(machine, flags.path)
  sayNote('A rehearsal: nothing is signed and nothing is recorded. Nothing of it may be done on a machine.')
  const ended = flags.answers === undefined ? await onScreen() : await fromFile(flags.answers)
  sayNote('The rehearsal is over; nothing of it was recorded.')
  return ended === 'finished' || ended === 'stopped' ? exit.well : exit.findings

  function onScreen(): Promise<Ended> {
    const clock = flags.clock === undefined ? runningClock(now) : standingClock(startOf(flags.clock), paceSeconds)
    const run = rehearsalRun(machine, person, clock)
    const session: SessionOptions = {
      person,
      keys: null,
      now: clock.now,
      takenUp: false,
      skipTo: clock.skipTo,
      ...(along === null ? {} : { guide: () => guideAlong(run, along) })
    }
    return onTerminal(run, session, flags)
  }

  async function fromFile(file: string): Promise<Ended | null> {
    const answers = answersFrom(file)
    const clock = scriptedClock(answers.clock?.start ?? now())
    const outcome = await runAnswers(
      rehearsalRun(machine, person, { now: () => clock.now().at, afterAnswer: () => undefined }),
      answers,
      {
        person,
        keys: null,
        takenUp: false,
        clock: { kind: 'scripted', clock },
        onPaper: false,
        passphrase: () => ({ ok: false, why: 'Nothing is signed in a rehearsal.' }),
        watch: sayNote
      }
    )
    return tellOutcome(outcome)
  }
}

function wayOf(machine: ProvedMachine, path: string): NumberedWay {
  const ways = numberedWays(machine)
  const found = ways.find(({ number }) => String(number) === path)
  if (found !== undefined) return found
  const listed = ways.map(({ number, generation, way }) => {
    const last = way.steps.at(-1)
    return `  ${number}${generation === '' ? '' : `  ${generation}`}  ${way.steps.length} steps, ends at ${last?.title ?? ''}`
  })
  throw new CannotRun(`there is no path \`${path}\` to rehearse; those that \`paths\` lists are:\n${listed.join('\n')}`)
}

function startOf(clock: string): string {
  if (/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}(\.\d+)?Z$/.test(clock) && Number.isFinite(Date.parse(clock))) return clock
  throw new CannotRun(`\`${clock}\` is no time; write it as 2026-03-02T07:00:00Z.`)
}
