import type { Ended, Reply, Session } from '../session/session.js'
import { confirms } from '../step/confirmation.js'
import { commandWords } from '../step/interpret-command.js'
import { type Frame, frameOf, type Size, type View } from './frame.js'
import { isTooSmall } from './too-small.js'

/** A key as the shell hears it: text, or one of the keys that have a name. */
export type Press =
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'enter' | 'backspace' | 'clear' | 'escape' | 'page-up' | 'page-down' | 'up' | 'down' | 'leave' }

export const firstView: View = { said: [], page: null, line: '', scroll: 0, readTo: null }

export interface Pressed {
  readonly view: View
  readonly ended: Ended | null
}

/** What one key does. An answer is recorded by the session before the next view exists. */
export function press(session: Session, drawn: View, key: Press, size: Size): Pressed {
  // Nothing is answered that cannot be read.
  if (isTooSmall(size) && key.kind !== 'leave') return { view: drawn, ended: null }
  const view = withRead(session, drawn, size)
  const frame = (): Frame => frameOf(session.screen(), view, size, session.options.now())
  const scrolled = (by: (shown: Frame) => number): Pressed => {
    const shown = frame()
    return { view: { ...view, scroll: Math.max(0, shown.scroll + by(shown)) }, ended: null }
  }
  switch (key.kind) {
    case 'text':
      return typed(session, view, key.text, size)
    case 'enter':
      return entered(session, view, size)
    case 'backspace':
      return { view: { ...view, line: [...view.line].slice(0, -1).join('') }, ended: null }
    case 'clear':
      return { view: { ...view, line: '' }, ended: null }
    case 'escape':
      return { view: { ...view, line: '', page: null, scroll: 0 }, ended: null }
    case 'page-up':
      return scrolled(({ page }) => -page)
    case 'page-down':
      return scrolled(({ page, below }) => Math.min(page, below))
    case 'up':
      return scrolled(() => -1)
    case 'down':
      return scrolled(({ below }) => Math.min(1, below))
    case 'leave':
      return afterReply(session, view, () => session.answer('leave'))
  }
}

/** Pasted or typed text, character by character; a line break in it enters the line. */
function typed(session: Session, view: View, text: string, size: Size): Pressed {
  let now: Pressed = { view, ended: null }
  for (const character of text) {
    if (now.ended !== null) return now
    if (character === '\r' || character === '\n') now = entered(session, now.view, size)
    else if (character === '\u007f' || character === '\b') now = press(session, now.view, { kind: 'backspace' }, size)
    else if (/\p{Cc}/u.test(character)) continue
    // `2,3` ticks two lines: each is taken by its one key, and what parts them begins no line.
    else if (now.view.line === '' && (character === ',' || character === ' ')) continue
    else if (character === '?' && now.view.line === '' && session.screen().commands)
      now = answered(session, now.view, '?', size)
    else {
      const { view: before } = now
      const isOneKey = before.page === null && before.line === '' && session.screen().oneKey === character
      const line = before.line.length < longest ? before.line + character : before.line
      now = isOneKey ? answered(session, before, character, size) : { view: { ...before, line }, ended: null }
    }
  }
  return now
}

const longest = 2000

function entered(session: Session, view: View, size: Size): Pressed {
  if (view.page !== null) {
    const shown = frameOf(session.screen(), view, size, session.options.now())
    return shown.below > 0
      ? { view: { ...view, scroll: shown.scroll + Math.min(shown.page, shown.below) }, ended: null }
      : { view: { ...view, page: null, scroll: 0, line: '' }, ended: null }
  }
  if (view.line === '' && session.question() === null) return press(session, view, { kind: 'page-down' }, size)
  return answered(session, view, view.line, size)
}

/** A confirmation counts once all of the step was on the screen; everything else is taken at once. */
function answered(session: Session, view: View, line: string, size: Size): Pressed {
  const screen = session.screen()
  const shown = frameOf(screen, view, size, session.options.now())
  const asked = session.asked()
  // A tick is no confirmation, also where one line alone is left: the step is confirmed behind it.
  const unseen = asked.kind === 'boxes' && session.question() === null && ticksUnseen(line, asked.boxes, shown.rows)
  if (unseen && shown.below > 0 && view.readTo !== stepOf(session)) {
    const scroll = shown.scroll + Math.min(shown.page, shown.below)
    const said = ['Not taken yet: that line was not on the screen. Read it, then type its number again.']
    return { view: { ...view, said, line: '', scroll }, ended: null }
  }
  const confirming = session.question() === null && 'confirm' in asked && confirms(line, asked.confirm)
  if (confirming && shown.below > 0 && view.readTo !== stepOf(session)) {
    const scroll = shown.scroll + Math.min(shown.page, shown.below)
    const said = [
      shown.below <= shown.page
        ? `Not taken yet: the rest is on the screen only now. Read it, then type \`${line}\` again.`
        : 'Not taken yet: there is more to read below, by PageDown or Enter.'
    ]
    return { view: { ...view, said, line: '', scroll }, ended: null }
  }
  return afterReply(session, view, () => session.answer(line))
}

/** Whether a line is ticked that lies below what is shown; lines are numbered from the top. */
function ticksUnseen(
  line: string,
  boxes: readonly { readonly number: number }[],
  rows: readonly { readonly text: string }[]
): boolean {
  const shown = rows.flatMap(({ text }) => {
    const [, number] = /^ *(\d+) \[[ x]\] /.exec(text) ?? []
    return number === undefined ? [] : [Number(number)]
  })
  const last = Math.max(0, ...shown)
  return line.split(/[\s,]+/).some((typed) => boxes.some(({ number }) => String(number) === typed && number > last))
}

/** Where the same step still asks for the same kind of thing, the place in the text is kept; else it is read from the top. */
export function afterReply(session: Session, view: View, bring: () => Reply): Pressed {
  const before = placeOf(session)
  const reply = bring()
  const read = view.readTo !== null && view.readTo === stepOf(session) && session.question() === null
  const stays = (placeOf(session) === before || read) && reply.page === null
  return {
    view: { said: reply.said, page: reply.page, line: '', scroll: stays ? view.scroll : 0, readTo: view.readTo },
    ended: reply.ended
  }
}

/** What the clock brings about leaves a command that is being typed as it is; an answer was meant for what is gone. */
export function afterClock(session: Session, view: View): Pressed {
  const { line } = view
  const isCommand = commandWords.includes(line.split(' ')[0]?.toLowerCase() ?? '') && session.question() === null
  const kept = isCommand || session.question() !== null
  const pressed = afterReply(session, view, session.passTime)
  return kept ? { ...pressed, view: { ...pressed.view, line } } : pressed
}

/** Keeps in mind that all of the step was on the screen, down to its end. */
function withRead(session: Session, view: View, size: Size): View {
  if (view.page !== null || view.readTo === stepOf(session)) return view
  const { below } = frameOf(session.screen(), view, size, session.options.now())
  return below === 0 ? { ...view, readTo: stepOf(session) } : view
}

/** What is read as one: a notice of a step, or the step itself. */
function stepOf(session: Session): string {
  const asked = session.asked()
  return `${session.visit()} ${asked.kind === 'notice' ? asked.notice.id : asked.kind === 'resume' ? 'resume' : ''}`
}

function placeOf(session: Session): string {
  return `${session.visit()} ${session.asked().kind} ${session.question()?.kind ?? ''}`
}
