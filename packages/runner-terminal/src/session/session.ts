import { advance, type Event } from '@lockwright/machine'
import type { RunEvent, Signer } from '@lockwright/records'
import type { RunPort, Taken } from '../run-port.js'
import { type Asked, askedNext } from '../step/asked.js'
import type { Confirmation } from '../step/confirmation.js'
import { clearDesk, type Desk, type OwnEvent, type Question } from '../step/desk.js'
import { interpret } from '../step/interpret.js'
import type { Interpreted, Sitting } from '../step/interpreted.js'
import { provingAgainNote } from '../step/live-reading.js'
import { warnElsewhere } from '../step/lock-elsewhere.js'
import { present } from '../step/present.js'
import type { Page, Screen } from '../step/screen.js'
import { signedEvent } from '../step/signed-event.js'
import { instrumentQuestion } from '../step/with-instrument.js'
import { visible } from '../text/visible.js'
import {
  afterRefusal,
  attached,
  copierOf,
  endedBy,
  isOwn,
  nowhereToKeep,
  strangerTo,
  tellMissingLocks,
  tellRefusals
} from './after-event.js'
import { clockWatch } from './clock-watch.js'
import { type Due, nextDue } from './due.js'
import { keyThatAnswers } from './key-that-answers.js'
import { leavesStep } from './leaves-step.js'
import { liveOfEvent, saidOfEvent } from './said-of-event.js'
import { saidOnTheWay } from './said-on-the-way.js'
import type { Ended, SessionOptions } from './session-options.js'

export type { Ended, SessionOptions } from './session-options.js'

/** What a line, or the clock, brought about. */
export interface Reply {
  /** Visible lines: what was taken note of, or why not and what to do. */
  readonly said: readonly string[]
  /** The line was refused: the run stands where it stood. */
  readonly refused: boolean
  readonly page: Page | null
  readonly ended: Ended | null
}

/** One person at one run: what lies on the desk, and the way from a line to the record. Both shells sit on this. */
export interface Session {
  readonly run: RunPort
  readonly options: SessionOptions
  screen(): Screen
  /** The one thing that is asked for next. */
  asked(): Asked
  /** The question of the desk's own that comes before it; null where there is none. */
  question(): Question | null
  /** Rises by one whenever a step is left, also where the same one comes round again. */
  visit(): number
  /** Interprets a line and, where it is an event, has it recorded before anything else is shown. */
  answer(line: string): Reply
  /** When the clock will next bring something about, RFC 3339. */
  due(): string | null
  /** Whether the clock has brought something about that is not recorded yet. */
  isDue(): boolean
  /** Records what the clock has brought about by now; says nothing where that is nothing. */
  passTime(): Reply
}

const quiet: Reply = { said: [], refused: false, page: null, ended: null }

export function openSession(run: RunPort, options: SessionOptions): Session {
  let desk: Desk = { ...clearDesk(run.snapshot.state), takenUp: options.takenUp }
  let visit = 0
  // What the clock brought about and was refused is tried again once somebody has typed something.
  let clockRefused = false
  let { person } = options
  // Whoever takes a run up says by --by alone who it is: their word is asked for before a lock of theirs comes off.
  let wordGiven = !options.takenUp
  const watch = clockWatch(options.now, options.elapsed)
  // A rehearsal is signed by name: nothing in it could be taken for real.
  const keys = run.mode === 'rehearsal' ? null : options.keys

  const record = (event: RunEvent, last: Confirmation | null, signer: Signer | null): Reply => {
    const before = run.snapshot
    // What an open question asked for stands in the next screen; it is not told twice.
    const asksWhy = desk.question?.kind === 'live-reason'
    const stamped = options.stampAt === undefined ? event : { ...event, at: options.stampAt() }
    const signs = signer ?? copierOf(event, options)
    const taken = signs === null ? run.take(stamped) : run.sign(stamped, signs)
    if (!taken.ok) {
      desk = afterRefusal(desk, event, taken)
      const live = noteLive(event, taken)
      return {
        ...quiet,
        said: [...tellRefusals(taken), ...tellMissingLocks(before, event, taken), ...live],
        refused: true
      }
    }
    if (leavesStep(event) || taken.snapshot.state !== before.state) {
      desk = clearDesk(taken.snapshot.state, { last: last ?? desk.last, instruments: desk.instruments })
      visit++
    } else {
      const takenUp = desk.takenUp && event.kind !== 'resumed'
      const live = liveOfEvent(run, event)
      const question: Question | null = live === null ? null : { kind: 'live-reason', ...live }
      desk = { ...desk, last: last ?? desk.last, question, takenUp }
    }
    const way = saidOnTheWay(run.machine, before, event, taken.snapshot).map(visible)
    const handed = event.kind === 'handed-over' ? [visible(`${event.to} answers from now on.`)] : []
    if (event.kind === 'handed-over') person = event.to
    if (event.kind === 'handed-over' || signs?.person === person) wordGiven = true
    return {
      ...quiet,
      said: [...way, ...(asksWhy ? [] : saidOfEvent(run, event)), ...handed],
      ended: endedBy(taken.snapshot)
    }
  }

  /** A reading that proving again does not take is in no event: it is kept as a note, and the reason is asked for. */
  const noteLive = (event: RunEvent, { refusals }: Extract<Taken, { readonly ok: false }>): readonly string[] => {
    const asked = askedNext(run.machine, run.snapshot, desk)
    if (event.kind !== 'proven-again' || asked.kind !== 'prove-again' || asked.input === null) return []
    if (!refusals.some(({ kind }) => kind === 'out-of-limits')) return []
    const live = { input: asked.input, typed: event.typed }
    const noted = run.take({ kind: 'note', text: provingAgainNote(live), by: event.by })
    desk = { ...desk, question: { kind: 'live-reason', ...live } }
    return noted.ok ? [] : tellRefusals(noted)
  }

  /** What bars a sign-off whatever the passphrase is: then none is asked for. */
  const barredFrom = (question: Question | null): readonly string[] => {
    const asked = askedNext(run.machine, run.snapshot, desk)
    if (question?.kind !== 'passphrase' || question.signs !== null || asked.kind !== 'sign') return []
    const barred = options.barred?.(question.person, asked.role) ?? null
    if (barred !== null) return [barred.why, barred.mend].map(visible)
    const signs = signedEvent({ snapshot: run.snapshot, desk }, asked, question.person)
    const taken = advance(run.machine, run.snapshot, { ...signs, at: options.now() } as Event)
    return taken.ok ? [] : tellRefusals(taken)
  }

  /** Asked for once nothing but the signature is missing: a passphrase given for nothing would be asked for again. */
  const askToSign = (signs: OwnEvent): Reply => {
    const taken = advance(run.machine, run.snapshot, { ...signs, at: options.now() } as Event)
    const barred = signs.kind === 'deviation' ? (options.barred?.(signs.by, signs.role) ?? null) : null
    if (barred !== null) {
      desk = { ...desk, question: null }
      return { ...quiet, said: [barred.why, barred.mend].map(visible), refused: true }
    }
    if (!taken.ok) {
      desk = afterRefusal(desk, signs, taken)
      return { ...quiet, said: tellRefusals(taken), refused: true }
    }
    desk = { ...desk, question: { kind: 'passphrase', person: signs.by, signs } }
    return quiet
  }

  // A step that the clock ends meanwhile would turn what is typed unseen into a line that is shown.
  const due = (): Due | undefined =>
    desk.takenUp || clockRefused || desk.question?.kind === 'passphrase' || desk.question?.kind === 'word'
      ? undefined
      : nextDue(run.machine, run.snapshot, person, watch.setOnSince)
  const isDue = (): boolean => {
    const next = due()
    return next !== undefined && Date.parse(options.now()) >= Date.parse(next.at)
  }

  const passTime = (): Reply => {
    const next = due()
    if (next === undefined || !isDue()) return quiet
    const reply = record(next.event, null, null)
    clockRefused = reply.refused
    if (reply.refused) return reply
    const said = next.event.kind === 'late' ? 'The time ran out.' : 'The wait is over.'
    return { ...reply, said: [said, ...reply.said] }
  }

  const sitting = (): Sitting => ({
    machine: run.machine,
    snapshot: run.snapshot,
    entries: run.entries,
    desk,
    person,
    keys,
    people: options.people?.() ?? [],
    stranger: (id) => strangerTo(options.people, id),
    offer: options.instruments,
    unfit: options.unfit,
    elsewhere: run.elsewhere ?? [],
    vouch: {
      needed: run.mode === 'issued' && options.stampAt === undefined,
      given: wordGiven,
      nameOf: options.nameOf ?? (() => null)
    },
    skips: options.skipTo !== undefined
  })

  // A screen is worked out from the whole record, and asked for several times for each key that is typed.
  let shown: { readonly of: readonly unknown[]; readonly screen: Screen } | null = null
  const screen = (): Screen => {
    const others = (run.elsewhere ?? []).map(warnElsewhere)
    const warnings = [...others, ...(run.warnings ?? []), ...(options.warnings?.() ?? []), ...watch.warnings()]
    const guide = options.guide?.() ?? []
    const of = [run.snapshot, run.entries.length, desk, person, ...warnings, '', ...guide]
    if (shown !== null && shown.of.length === of.length && of.every((part, index) => part === shown?.of[index]))
      return shown.screen
    const { machine, snapshot, entries, mode } = run
    const skips = options.skipTo !== undefined
    const { setOnSince } = watch
    const made = present({ machine, snapshot, desk, person, mode, entries, warnings, guide, skips, setOnSince })
    shown = { of, screen: { ...made, oneKey: keyThatAnswers(made.oneKey, sitting(), options.now()) } }
    return shown.screen
  }

  /** Asked before the reading, which would be refused without it. */
  const settle = (): void => {
    const question = instrumentQuestion(run.machine, run.snapshot, desk, options.instruments)
    if (question !== null) desk = { ...desk, question }
  }

  const answerLine = (line: string): Reply => {
    clockRefused = false
    return follow(interpret(line, sitting()))
  }

  const follow = (meant: Interpreted): Reply => {
    switch (meant.kind) {
      case 'nothing':
        return quiet
      case 'event':
        if (meant.signer === null && isOwn(meant.event) && keys?.has(meant.event.by) === true)
          return askToSign(meant.event)
        return record(meant.event, meant.last, meant.signer === 'nobody' ? null : meant.signer)
      case 'desk': {
        const barred = barredFrom(meant.desk.question)
        if (barred.length > 0) return { ...quiet, said: barred, refused: true }
        desk = meant.desk
        return quiet
      }
      case 'page':
        return { ...quiet, page: meant.page }
      case 'skip': {
        const next = due()
        if (next === undefined || options.skipTo === undefined) {
          return { ...quiet, said: ['Nothing runs that could be skipped.'], refused: true }
        }
        options.skipTo(next.at)
        return passTime()
      }
      case 'vouched': {
        const noted = record(meant.note, null, meant.signer)
        if (noted.refused) return noted
        const { said, ...then } = follow(meant.next)
        // A run that is paused because a lock is missing is looked after here and now.
        if (then.ended === 'paused') return { ...then, ended: null, said: [visible(meant.note.text), ...said] }
        return { ...then, said: [...(meant.signer === null ? [visible(meant.note.text)] : []), ...said] }
      }
      case 'person':
        person = meant.person
        wordGiven = true
        desk = { ...desk, question: null }
        return { ...quiet, said: [visible(`${person} answers from now on.`)] }
      case 'attach': {
        const kept = options.attach?.(meant.path) ?? nowhereToKeep
        if (kept.ok) return record(attached(kept, person), null, null)
        return { ...quiet, said: [kept.why, kept.mend].filter((text) => text !== '').map(visible), refused: true }
      }
      case 'leave':
        return { ...quiet, ended: endedBy(run.snapshot) ?? 'left' }
      case 'refused':
        desk = meant.desk ?? desk
        return { ...quiet, said: [meant.why, meant.mend].filter((text) => text !== '').map(visible), refused: true }
    }
  }

  settle()
  return {
    run,
    options,
    asked: () => askedNext(run.machine, run.snapshot, desk, run.entries),
    question: () => desk.question,
    visit: () => visit,
    screen,
    answer: (line) => {
      const reply = answerLine(line)
      settle()
      return reply
    },
    due: () => due()?.at ?? null,
    isDue,
    passTime: () => {
      const reply = passTime()
      settle()
      return reply
    }
  }
}
