import type { Diagnostic, Place } from '@lockwright/language'
import { type PersonId, type State, type StateId, stateOf } from '@lockwright/machine'
import type { RunEvent } from '@lockwright/records'
import type { RunPort } from '../run-port.js'
import { type Ended, openSession, type SessionOptions } from '../session/session.js'
import { later, readingOf } from '../step/asked.js'
import type { OfferInstruments } from '../step/with-instrument.js'
import { visible } from '../text/visible.js'
import { answering } from './answer-step.js'
import { answeredRun } from './answered-run.js'
import type { Answer, Answers, StepAnswers } from './answers.js'
import { fault } from './fault.js'
import { instrumentsOf } from './line-for.js'
import { printedNumbers } from './printed-number.js'
import type { ScriptedClock } from './scripted-clock.js'
import { inThisMinute, notYet } from './written-times.js'

export interface AnswersIo extends Omit<SessionOptions, 'now' | 'stampAt'> {
  /**
   * `computer`: waits are waited out. `scripted`: the clock that the records of this run read too, set by the answers;
   * only for a run that says in its record that it was a rehearsal, a draft or entered from paper.
   */
  readonly clock:
    | {
        readonly kind: 'computer'
        readonly now: () => string
        readonly sleepUntil: (at: string, aborted: AbortSignal) => Promise<void>
      }
    | { readonly kind: 'scripted'; readonly clock: ScriptedClock }
  /** The run is entered from a printed sheet: each event bears the time that the sheet says. */
  readonly onPaper: boolean
  /** The answers are those of a whole sheet of which this run holds a part: what it holds is compared, and not recorded again. */
  readonly goesOn?: boolean
  /** Numbers of the steps on the sheet that was printed; without it, those of a sheet for every generation. */
  readonly numbers?: ReadonlyMap<StateId, number>
  /** Nothing is recorded for a time later than this, RFC 3339: the sheet tells what has been. */
  readonly notAfter?: () => string
  /** A passphrase from where `passphrase-from` says, never from the file itself; null: the answer does not say where. */
  readonly passphrase: (
    from: string | null,
    person: PersonId
  ) => { readonly ok: true; readonly value: string } | { readonly ok: false; readonly why: string }
  /** Told of each step as it is answered, in visible lines; for whoever watches. */
  readonly watch?: (line: string) => void
}

/** How far the answers went. The run keeps all that was taken, also where there are faults. */
export interface AnswersOutcome {
  readonly ended: Ended
  readonly faults: readonly Diagnostic[]
  /** What the sheet leaves unsaid and the record says so, in visible lines. */
  readonly remarks: readonly string[]
  /** Answers that were given, of those in the file. */
  readonly given: number
  readonly of: number
  /** Where the run now stands. */
  readonly stands: { readonly state: string; readonly title: string }
}

/** Gives the answers of a file, in their order, through the same interpreter as typed lines; stops at the first that does not fit. */
export async function runAnswers(
  record: RunPort,
  { answers, clock: script, file }: Answers,
  io: AnswersIo
): Promise<AnswersOutcome> {
  const { clock, onPaper } = io
  const now = (): string => (clock.kind === 'scripted' ? clock.clock.now().at : clock.now())
  let answered: Answer | null = null
  const instrumentFor = (event: RunEvent): string | undefined =>
    answered?.kind === 'step' ? instrumentAt(run, event, answered, io.instruments) : undefined
  const run = answeredRun(record, { goesOn: io.goesOn === true, instrumentFor })
  const { instruments: _, ...bare } = io
  // Nobody is asked what a sheet says by itself.
  const session = openSession(run, onPaper ? { ...bare, now, stampAt: now } : { ...io, now })
  const numbers = io.numbers ?? printedNumbers(run.machine)
  const faults: Diagnostic[] = []
  let given = 0
  const steps = answering(session, io)
  const outcome = (): AnswersOutcome => {
    const { id, title } = stateOf(run.machine, run.snapshot.state)
    return {
      ended: steps.ended() ?? 'input-ended',
      faults,
      remarks: steps.remarks,
      given,
      of: answers.length,
      stands: { state: id, title: visible(title) }
    }
  }
  if (clock.kind === 'scripted' && run.mode === 'issued' && !onPaper) {
    const place = answers[0]?.place ?? nowhere(file)
    faults.push(
      fault(
        'answers-clock',
        place,
        'A run for work on the real machine takes its times from the computer, not from a file.',
        'Leave the times out, rehearse the run, or enter it as from a printed sheet.'
      )
    )
    return outcome()
  }

  // A run that is taken up goes on from its last event: its times never run back.
  if (clock.kind === 'scripted' && !onPaper) clock.clock.set(run.snapshot.at)
  for (const answer of answers) {
    const refused =
      steps.ended() === null
        ? await give(answer)
        : fault(
            'answers-left-over',
            answer.place,
            `The run was over before this answer: it is ${steps.ended()}.`,
            'Take it out, or see which answer before it ended the run.'
          )
    if (refused !== null) {
      faults.push(refused)
      break
    }
    given += 1
  }
  if (faults.length === 0 && run.ahead() > 0) faults.push(holdsMore())
  return outcome()

  async function give(answer: Answer): Promise<Diagnostic | null> {
    answered = answer
    pace()
    if (answer.kind === 'line') {
      const refused = await steps.outwait(answer.place)
      return refused ?? steps.typeLine(answer.line, answer.place)
    }
    for (const coming of answer.people) {
      const refused = setTime(coming.time, coming.place) ?? steps.answerComing(coming)
      if (refused !== null) return refused
    }
    // Who came or left is told by itself too.
    if (answer.at === '' && answer.number === null) return null
    const state = stateOf(run.machine, run.snapshot.state)
    if (!addresses(answer, state)) {
      if (run.ahead() > 0) return notAsEntered(state, answer.place)
      return fault(
        'answers-order',
        answer.place,
        `The answer is for ${tellAddress(answer)}, but the run stands at \`${state.id}\` (${[...tellNumber(state.id), state.title].join(', ')}).`,
        'Give the answers in the order in which the run comes to its steps.'
      )
    }
    const refused = setTime(answer.time, answer.place)
    if (refused !== null) return refused
    io.watch?.(`${visible(state.id)}: ${visible(state.title)}`)
    return steps.answerStep(answer)
  }

  function pace(): void {
    if (clock.kind !== 'scripted' || script === null || given === 0) return
    const next = later(now(), script.paceSeconds)
    if (io.notAfter === undefined || Date.parse(next) <= Date.parse(io.notAfter())) clock.clock.set(next)
  }

  function holdsMore(): Diagnostic {
    const { state } = run.snapshot
    const place = answers.at(-1)?.place ?? nowhere(file)
    return notAsEntered(stateOf(run.machine, state), place)
  }

  function notAsEntered({ id, title }: State, place: Place): Diagnostic {
    return fault(
      'answers-order',
      place,
      `The run has done \`${id}\` (${title}); the sheet does not say so here.`,
      'Give the whole sheet from its first step on, as it was entered before.'
    )
  }

  /** Whether an entry belongs to a state: by its id, by the step's, or by the number on the sheet. */
  function addresses({ at, number }: StepAnswers, { id, step }: State): boolean {
    return (at === '' || at === id || at === step) && (number === null || numbers.get(id) === number)
  }

  function setTime(time: string | null, place: Place): Diagnostic | null {
    if (time === null) return null
    if (clock.kind === 'computer') {
      return fault(
        'answers-time',
        place,
        'The answer has a time, but the clock of the computer is used.',
        'Leave the time out, or write `clock:` at the top.'
      )
    }
    const ahead = io.notAfter === undefined ? null : notYet(time, io.notAfter(), place)
    if (ahead !== null) return ahead
    return (onPaper && inThisMinute(time, now())) || clock.clock.set(time)
      ? null
      : fault(
          'answers-time',
          place,
          `The time ${time} lies before ${now().replace('.000Z', 'Z')}, which the answers above it have come to.`,
          'Give the answers in the order of their times. A wait above it takes as long as it has to.'
        )
  }

  function tellNumber(state: StateId): readonly string[] {
    const number = numbers.get(state)
    return number === undefined ? [] : [`step ${number} on the sheet`]
  }
}

/** What the entry says of the instrument: the one of them that fits here, else as the sheet has it; the audit judges that. */
function instrumentAt(
  { machine, snapshot }: RunPort,
  event: RunEvent,
  entry: StepAnswers,
  offer: OfferInstruments | undefined
): string | undefined {
  const again = event.kind === 'proven-again'
  if (event.kind !== 'reading' && !again) return undefined
  const input = again
    ? readingOf(machine, event.source)
    : stateOf(machine, snapshot.state).inputs.find((one) => one.kind === 'reading' && one.id === event.input)
  if (input?.kind !== 'reading') return undefined
  const written = instrumentsOf(input, entry)
  const fits = offer?.(input, again)?.find(({ id }) => written.some((one) => one.toLowerCase() === id.toLowerCase()))
  return fits?.id ?? (written.length === 0 ? undefined : written.join(', '))
}

function nowhere(file: string): Place {
  const start = { line: 1, column: 1, offset: 0 }
  return { file, start, end: start }
}

function tellAddress({ at, number }: StepAnswers): string {
  return [...(number === null ? [] : [`step ${number}`]), ...(at === '' ? [] : [`\`${at}\``])].join(', ')
}
