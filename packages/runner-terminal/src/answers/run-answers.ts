import type { Diagnostic, Place } from '@lockwright/language'
import { type PersonId, type StateId, stateOf } from '@lockwright/machine'
import type { RunPort } from '../run-port.js'
import { type Ended, openSession, type SessionOptions } from '../session/session.js'
import { later } from '../step/asked.js'
import { visible } from '../text/visible.js'
import { answering } from './answer-step.js'
import type { Answer, Answers, StepAnswers } from './answers.js'
import { fault } from './fault.js'
import { addresses, type GivenAlready, givenAlready } from './given-already.js'
import { printedNumbers } from './printed-number.js'
import type { ScriptedClock } from './scripted-clock.js'

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
  /** The answers are those of a whole sheet of which this run holds a part: what it holds is passed over. */
  readonly goesOn?: boolean
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
  run: RunPort,
  { answers, clock: script, file }: Answers,
  io: AnswersIo
): Promise<AnswersOutcome> {
  const { clock, onPaper } = io
  const now = (): string => (clock.kind === 'scripted' ? clock.clock.now().at : clock.now())
  const session = openSession(run, { ...io, now, ...(onPaper ? { stampAt: now } : {}) })
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
    const place = answers[0]?.place ?? {
      file,
      start: { line: 1, column: 1, offset: 0 },
      end: { line: 1, column: 1, offset: 0 }
    }
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
  if (clock.kind === 'scripted' && (!onPaper || io.goesOn === true)) clock.clock.set(run.snapshot.at)
  const already: GivenAlready = io.goesOn === true ? givenAlready(run, answers) : { ok: true, count: 0 }
  if (!already.ok) {
    faults.push(already.fault)
    return outcome()
  }
  const { count } = already
  given = count
  for (const answer of answers.slice(count)) {
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
  return outcome()

  async function give(answer: Answer): Promise<Diagnostic | null> {
    if (clock.kind === 'scripted' && script !== null && given > count) clock.clock.set(later(now(), script.paceSeconds))
    if (answer.kind === 'line') {
      const refused = await steps.outwait(answer.place)
      return refused ?? steps.typeLine(answer.line, answer.place)
    }
    const state = stateOf(run.machine, run.snapshot.state)
    if (!addresses(run.machine, answer, state.id)) {
      return fault(
        'answers-order',
        answer.place,
        `The answer is for ${tellAddress(answer)}, but the run stands at \`${state.id}\` (${[...tellNumber(state.id), state.title].join(', ')}).`,
        'Give the answers in the order in which the run comes to its steps.'
      )
    }
    if (answer.time !== null) {
      const refused = setTime(answer.time, answer.place)
      if (refused !== null) return refused
    }
    io.watch?.(`${visible(state.id)}: ${visible(state.title)}`)
    return steps.answerStep(answer, io.goesOn === true && given === count)
  }

  function setTime(time: string, place: Place): Diagnostic | null {
    if (clock.kind === 'computer') {
      return fault(
        'answers-time',
        place,
        'The answer has a time, but the clock of the computer is used.',
        'Leave the time out, or write `clock:` at the top.'
      )
    }
    return clock.clock.set(time)
      ? null
      : fault(
          'answers-time',
          place,
          `The time ${time} lies before the answer above it.`,
          'Give the answers in the order of their times.'
        )
  }

  function tellNumber(state: StateId): readonly string[] {
    const number = printedNumbers(run.machine).get(state)
    return number === undefined ? [] : [`step ${number} on the sheet`]
  }
}

function tellAddress({ at, number }: StepAnswers): string {
  return [...(number === null ? [] : [`step ${number}`]), ...(at === '' ? [] : [`\`${at}\``])].join(', ')
}
