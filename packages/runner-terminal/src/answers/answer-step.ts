import type { Diagnostic, Place } from '@lockwright/language'
import { askedInputs, type Input, stateOf } from '@lockwright/machine'
import type { Ended, Reply, Session } from '../session/session.js'
import { isClosing, type Question, unsignedWord } from '../step/desk.js'
import { tellLimits } from '../step/limits.js'
import { visible } from '../text/visible.js'
import type { Coming, StepAnswers } from './answers.js'
import { fault } from './fault.js'
import { instrumentsOf, lineFor } from './line-for.js'
import type { AnswersIo } from './run-answers.js'
import { notYet, tooShort } from './written-times.js'

type ReadingInput = Extract<Input, { readonly kind: 'reading' }>

/** More than any step asks; each turn answers something, or the entry has nothing more to say. */
const mostTurns = 10_000

/** Gives the answers of one entry after the other to a session. */
export interface Answering {
  /** How the run ended, once it has. */
  readonly ended: () => Ended | null
  /** What the sheet leaves unsaid, in visible lines. */
  readonly remarks: readonly string[]
  readonly typeLine: (line: string, place: Place) => Diagnostic | null
  readonly answerStep: (entry: StepAnswers) => Promise<Diagnostic | null>
  /** Somebody comes to work under the lockout, or leaves it. */
  readonly answerComing: (coming: Coming) => Diagnostic | null
  /** The end of a wait that runs: the scripted clock is set to it, the other is waited for. */
  readonly outwait: (place: Place) => Promise<Diagnostic | null>
}

export function answering(session: Session, io: AnswersIo): Answering {
  const { run } = session
  const { clock, onPaper } = io
  const now = (): string => (clock.kind === 'scripted' ? clock.clock.now().at : clock.now())
  const remarks: string[] = []
  let ended: Ended | null = null
  let reasons: string[] = []
  return { ended: () => ended, remarks, typeLine, answerStep, answerComing, outwait }

  function tell(reply: Reply): void {
    for (const said of reply.said) io.watch?.(said)
    ended = ended ?? reply.ended
  }

  function typeLine(line: string, place: Place, asksWhy = false): Diagnostic | null {
    const secret = session.screen().secret
    const shown = secret ? 'The passphrase' : `\`${visible(line)}\``
    const reply = session.answer(line)
    tell(reply)
    // A stop that is not safe yet, and a reading that is live, ask one thing more, which the same entry may answer.
    const kind = session.question()?.kind
    return reply.refused && kind !== 'stop-left' && !(asksWhy && kind === 'live-reason')
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
    reasons = [...entry.reasons]
    for (const line of [...(entry.by === null ? [] : [`as ${entry.by}`]), ...entry.type]) {
      const refused = typeLine(line, entry.place) ?? signIfAsked(entry)
      if (refused !== null) return refused
      if (ended !== null) return null
    }
    for (let turns = 0; ended === null && session.visit() === visit; turns++) {
      if (turns > mostTurns) throw new Error(`the answers of line ${entry.place.start.line} go round in circles`)
      const refused = await answerNext(entry, taken)
      if (refused !== null) return refused
    }
    return null
  }

  /** A further line must not be taken for the passphrase that a line before it asks for. */
  function signIfAsked(entry: StepAnswers): Diagnostic | null {
    const question = session.question()
    if (question?.kind === 'word') return giveWord(entry, question)
    return question?.kind === 'passphrase' ? givePassphrase(entry, question) : null
  }

  async function answerNext(entry: StepAnswers, taken: Map<string, number>): Promise<Diagnostic | null> {
    const question = session.question()
    if (question?.kind === 'surprise') {
      return entry.sure
        ? typeLine(question.typed, entry.place)
        : fault('answers-surprise', entry.place, question.why, 'Correct the reading, or write `sure: yes` beside it.')
    }
    if (question?.kind === 'live-reason') return giveReason(entry, question)
    if (question?.kind === 'instrument') {
      const written = instrumentsOf(question.input, entry)
      const given = written.find((id) => isOffered(id, question)) ?? written[0]
      return given === undefined
        ? fault(
            'answers-instrument',
            entry.place,
            `The entry does not say with which instrument \`${question.input.label}\` is read.`,
            `Write \`with:\` and the number of one that fits: ${question.offered.map(({ id }) => id).join(', ') || 'none of this site does'}.`
          )
        : typeLine(given, entry.place)
    }
    if (question?.kind === 'odd-lock') {
      return entry.sure
        ? typeLine(question.typed, entry.place)
        : fault(
            'answers-surprise',
            entry.place,
            `\`${question.typed}\` holds no digit.`,
            'Write the number that stands on the lock, or `sure: yes` beside it.'
          )
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
    if (question?.kind === 'word') return giveWord(entry, question)
    if (question?.kind === 'unsigned') return typeLine(unsignedWord, entry.place)
    const asked = session.asked()
    const next = lineFor(asked, entry, taken, readingsHere())
    // All that the entry says of the step is entered first; then the work stops there.
    const leaves = asked.kind === 'done' || asked.kind === 'choose' || asked.kind === 'sign'
    if (entry.stop !== null && (leaves || next.kind === 'missing')) return typeLine(`stop ${entry.stop}`, entry.place)
    const notKept = asked.kind === 'start-wait' ? waitNotKept(asked.input, entry) : null
    if (notKept !== null) return notKept
    switch (next.kind) {
      case 'missing':
        return fault('answers-missing', entry.place, next.what, next.mend)
      case 'wait': {
        const refused = await outwait(entry.place)
        if (clock.kind === 'scripted' && entry.ended !== null && refused === null) clock.clock.set(entry.ended)
        return refused
      }
      case 'line':
        return next.reading === null
          ? typeLine(next.line, entry.place)
          : giveReading(next.line, next.reading, entry, taken)
    }
  }

  /** Before anything of the wait is recorded. */
  function waitNotKept(wait: Extract<Input, { readonly kind: 'wait' }>, entry: StepAnswers): Diagnostic | null {
    const short = tooShort(wait, entry, now())
    if (short !== null || entry.ended === null || io.notAfter === undefined) return short
    return notYet(entry.ended, io.notAfter(), entry.place)
  }

  /** Counted as given once it is on record, as a reading or as the note of one. */
  function giveReading(
    line: string,
    key: string,
    { place }: StepAnswers,
    taken: Map<string, number>
  ): Diagnostic | null {
    const before = run.entries.length
    const refused = typeLine(line, place, true)
    const heldBack = session.question()?.kind === 'live-reason' && run.entries.length === before
    if (!heldBack) taken.set(key, (taken.get(key) ?? 0) + 1)
    return refused
  }

  /** Nobody can be asked what a sheet leaves unsaid: the record says that it is unsaid. */
  function giveReason(
    { place }: StepAnswers,
    { input, typed }: Extract<Question, { readonly kind: 'live-reason' }>
  ): Diagnostic | null {
    const reason = reasons.shift()
    if (reason !== undefined) return typeLine(reason, place)
    const what = `\`${input.label}\` read ${typed}, which is out of limits (${tellLimits(input)})`
    if (onPaper) {
      remarks.push(visible(`${what}; the sheet gives no reason.`))
      return typeLine('the sheet gives no reason', place)
    }
    return fault(
      'answers-reason',
      place,
      `${what}, and the entry does not say why.`,
      'Find out why before it is measured again, and write what was found as `reason:`.'
    )
  }

  function isOffered(id: string, { offered }: Extract<Question, { readonly kind: 'instrument' }>): boolean {
    return offered.some((one) => one.id.toLowerCase() === id.toLowerCase())
  }

  function readingsHere(): readonly ReadingInput[] {
    const { machine, snapshot } = run
    const inputs = askedInputs(machine, snapshot.ledger, stateOf(machine, snapshot.state))
    return inputs.flatMap((input) => (input.kind === 'reading' ? [input] : []))
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

  /** Somebody answers from here on, or a lock of theirs is recorded: by their passphrase, where they have a key. */
  function giveWord(
    { sign, place }: StepAnswers,
    { person, by }: Extract<Question, { readonly kind: 'word' }>
  ): Diagnostic | null {
    if (by === 'name') return typeLine(io.nameOf?.(person) ?? person, place)
    const from = sign === null || sign === 'no' || (sign.person ?? person) !== person ? null : sign.passphraseFrom
    const passphrase = io.passphrase(from, person)
    if (passphrase.ok) return typeLine(passphrase.value, place)
    return fault(
      'answers-passphrase',
      place,
      `\`${person}\` has a key and gives their word for this by passphrase. ${passphrase.why}`,
      `Write where it is read: \`sign: { person: ${person}, passphrase-from: env:NAME }\` or \`file:PATH\`.`
    )
  }

  function answerComing({ kind, locks, person, place }: Coming): Diagnostic | null {
    const hung = [...locks].map(([point, lock]) => `${point}=${lock}`)
    return typeLine([kind === 'joins' ? 'join' : 'left', person, ...hung].join(' '), place)
  }

  /** The end of a wait that runs: the scripted clock is set to it, the other is waited for. */
  async function outwait(place: Place): Promise<Diagnostic | null> {
    const due = session.due()
    if (due === null || session.asked().kind !== 'waiting') return null
    const ahead = io.notAfter === undefined ? null : notYet(due, io.notAfter(), place)
    if (ahead !== null) return ahead
    if (clock.kind === 'scripted') clock.clock.set(due)
    else await clock.sleepUntil(due, new AbortController().signal)
    const reply = session.passTime()
    tell(reply)
    return reply.refused ? fault('answers-refused', place, reply.said.join(' '), 'See what it asks for first.') : null
  }
}
