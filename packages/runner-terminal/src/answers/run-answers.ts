import type { Diagnostic, Place } from '@lockwright/language'
import { type PersonId, stateOf } from '@lockwright/machine'
import type { RunPort } from '../run-port.js'
import { type Ended, openSession, type Reply, type SessionOptions } from '../session/session.js'
import { later } from '../step/asked.js'
import { isClosing, type Question, unsignedWord } from '../step/desk.js'
import { visible } from '../text/visible.js'
import type { Answer, Answers, StepAnswers } from './answers.js'
import { fault } from './fault.js'
import { lineFor } from './line-for.js'
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
  /** Answers that were given, of those in the file. */
  readonly given: number
  readonly of: number
  /** Where the run now stands. */
  readonly stands: { readonly state: string; readonly title: string }
}

/** More than any step asks; each turn answers something, or the entry has nothing more to say. */
const mostTurns = 10_000

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
  let ended: Ended | null = null
  let given = 0
  const tell = (reply: Reply): void => {
    for (const said of reply.said) io.watch?.(said)
    ended = ended ?? reply.ended
  }
  const outcome = (): AnswersOutcome => {
    const { id, title } = stateOf(run.machine, run.snapshot.state)
    return {
      ended: ended ?? 'input-ended',
      faults,
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
  if (clock.kind === 'scripted' && !onPaper) clock.clock.set(run.snapshot.at)
  for (const answer of answers) {
    const refused =
      ended === null
        ? await give(answer)
        : fault(
            'answers-left-over',
            answer.place,
            `The run was over before this answer: it is ${ended}.`,
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
    if (clock.kind === 'scripted' && script !== null && given > 0) clock.clock.set(later(now(), script.paceSeconds))
    if (answer.kind === 'line') {
      const refused = await outwait(answer.place)
      return refused ?? typeLine(answer.line, answer.place)
    }
    const state = stateOf(run.machine, run.snapshot.state)
    if (answer.at !== state.id && answer.at !== state.step) {
      return fault(
        'answers-order',
        answer.place,
        `The answer is for \`${answer.at}\`, but the run stands at \`${state.id}\` (${state.title}).`,
        'Give the answers in the order in which the run comes to its steps.'
      )
    }
    if (answer.time !== null) {
      const refused = setTime(answer.time, answer.place)
      if (refused !== null) return refused
    }
    io.watch?.(`${visible(state.id)}: ${visible(state.title)}`)
    return answerStep(answer)
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

  function typeLine(line: string, place: Place): Diagnostic | null {
    const shown = session.question()?.kind === 'passphrase' ? 'The passphrase' : `\`${visible(line)}\``
    const reply = session.answer(line)
    tell(reply)
    // A stop that is not safe yet asks one thing more, which the same entry may answer.
    return reply.refused && session.question()?.kind !== 'stop-left'
      ? fault(
          'answers-refused',
          place,
          `${shown} was not taken: ${reply.said.join(' ')}`,
          'Answer what the step asks; all answers before this one are kept.'
        )
      : null
  }

  /** Everything that one step asks, until it is left, the run ends, or the entry has nothing more to say. */
  async function answerStep(entry: StepAnswers): Promise<Diagnostic | null> {
    const visit = session.visit()
    const taken = new Map<string, number>()
    for (const line of [
      ...(entry.by === null ? [] : [`as ${entry.by}`]),
      ...entry.type,
      ...(entry.stop === null ? [] : [`stop ${entry.stop}`])
    ]) {
      const refused = typeLine(line, entry.place) ?? signIfAsked(entry)
      if (refused !== null) return refused
      if (ended !== null) return null
    }
    for (let turns = 0; ended === null && session.visit() === visit; turns++) {
      if (turns > mostTurns) throw new Error(`the answers for ${entry.at} go round in circles`)
      const refused = await answerNext(entry, taken)
      if (refused !== null) return refused
    }
    return null
  }

  /** A further line must not be taken for the passphrase that a line before it asks for. */
  function signIfAsked(entry: StepAnswers): Diagnostic | null {
    const question = session.question()
    return question?.kind === 'passphrase' ? givePassphrase(entry, question) : null
  }

  async function answerNext(entry: StepAnswers, taken: Map<string, number>): Promise<Diagnostic | null> {
    const question = session.question()
    if (question?.kind === 'surprise') {
      return entry.sure
        ? typeLine(question.typed, entry.place)
        : fault('answers-surprise', entry.place, question.why, 'Correct the reading, or write `sure: yes` beside it.')
    }
    if (question?.kind === 'stop-left') {
      return entry.left === null
        ? fault(
            'answers-stop',
            entry.place,
            `The work cannot simply stop here: ${question.needs.map(({ why }) => why).join(' ')}`,
            'Write `left:` with the condition in which the machine is left.'
          )
        : typeLine(entry.left, entry.place)
    }
    if (question?.kind === 'passphrase') return givePassphrase(entry, question)
    if (question?.kind === 'unsigned') return typeLine(unsignedWord, entry.place)
    const next = lineFor(session.asked(), entry, taken)
    switch (next.kind) {
      case 'missing':
        return fault('answers-missing', entry.place, next.what, next.mend)
      case 'wait':
        return outwait(entry.place)
      case 'line':
        if (next.reading !== null) taken.set(next.reading, (taken.get(next.reading) ?? 0) + 1)
        return typeLine(next.line, entry.place)
    }
  }

  function givePassphrase(
    { sign, place }: StepAnswers,
    { person, signs: own }: Extract<Question, { readonly kind: 'passphrase' }>
  ): Diagnostic | null {
    const closes = own !== null && isClosing(own)
    if (sign === 'no' && closes) return typeLine('', place)
    const signs = sign === 'no' ? null : sign
    if (own !== null && signs !== null && signs.person !== null && signs.person !== person) {
      return fault(
        'answers-refused',
        place,
        `\`${signs.person}\` cannot sign what \`${person}\` answers for.`,
        `Write \`by: ${signs.person}\` in the entry, or let \`${person}\` sign.`
      )
    }
    const passphrase = io.passphrase(signs?.passphraseFrom ?? null, person)
    if (passphrase.ok) return typeLine(passphrase.value, place)
    return fault(
      'answers-passphrase',
      place,
      passphrase.why,
      `Write where the passphrase of \`${person}\` is read: \`sign: { passphrase-from: env:NAME }\` or \`file:PATH\`${!closes ? '' : ', or `sign: no` to close the run without a signature'}.`
    )
  }

  /** The end of a wait that runs: the scripted clock is set to it, the other is waited for. */
  async function outwait(place: Place): Promise<Diagnostic | null> {
    const due = session.due()
    if (due === null || session.asked().kind !== 'waiting') return null
    if (clock.kind === 'scripted') clock.clock.set(due)
    else await clock.sleepUntil(due, new AbortController().signal)
    const reply = session.passTime()
    tell(reply)
    return reply.refused ? fault('answers-refused', place, reply.said.join(' '), 'See what it asks for first.') : null
  }
}
