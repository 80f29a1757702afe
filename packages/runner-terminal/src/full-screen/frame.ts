import type { Screen } from '../step/screen.js'
import { bar } from '../text/bar.js'
import { columnsOf, fit, pad } from '../text/columns.js'
import { wrap } from '../text/wrap.js'
import { mainLines, type Row, row } from './main-lines.js'
import { besideLines, narrowLines } from './panel-lines.js'

/** What the person at the screen does with it, beside what is recorded. */
export interface View {
  /** What was said last: taken note of, or refused and why. */
  readonly said: readonly string[]
  readonly page: { readonly title: string; readonly lines: readonly string[] } | null
  /** Typed so far. */
  readonly line: string
  /** First line of the main part that is shown. */
  readonly scroll: number
  /** The notice or step whose end was on the screen already; null: none yet. */
  readonly readTo: string | null
}

export interface Size {
  readonly columns: number
  readonly rows: number
}

/** A whole screen: exactly `rows` lines at most, none wider than `columns`. `below`: lines of the main part still hidden. */
export interface Frame {
  readonly rows: readonly Row[]
  readonly scroll: number
  readonly below: number
  /** Lines of the main part that are shown at once. */
  readonly page: number
}

/** The most urgent first: what finds no room is left to `help`. */
const hints = ['stop', 'help', 'pause', 'note', 'why', 'sources', 'whole', 'record', 'leave']

/** Lines that the step itself always has. */
const leastMain = 4

/** With fewer rows than this, one line has to do for all sources, so that the question stays in sight. */
const tall = 14

/** Longer lines are hard to follow. */
const widest = 100

/** Narrower than this, the sources stand above the step instead of beside it. */
const narrow = 60

/** Lays a screen out for a terminal of any size; `now` (RFC 3339) moves the bars alone. */
export function frameOf(screen: Screen, view: View, { columns, rows }: Size, now: string): Frame {
  const beside = columns >= narrow
  const panelWidth = beside ? Math.min(40, Math.max(26, Math.floor(columns / 3))) : 0
  const width = Math.min(widest, beside ? columns - panelWidth - 3 : columns)
  const head = headRows(screen, columns)
  const sources = beside ? [] : narrowLines(screen, columns, rows < tall ? 1 : 3)
  const top = [...head, ...sources, row('-'.repeat(columns), 'faint')]

  const said = view.said.flatMap((text) => wrap(text, columns, '  ')).map((text) => row(text, 'strong'))
  const asked = view.page === null ? askedRows(screen, columns) : [row('Enter or Escape: back to the step', 'plain')]
  // What was said last stands beside the line that it answers, as far as it leaves room for the step at all.
  const near = said.slice(0, Math.floor((rows - top.length - 2) / 2))
  const room = rows - top.length - 2 - near.length - leastMain
  // Where not all of it fits, the question itself stays at the bottom and what can be typed is read with the step.
  const question = view.page === null ? questionRows(screen, columns) : asked
  const kept = asked.length <= room ? asked : question.length <= room ? question : []
  const prompt = promptRow(screen, view, columns)
  const rule = view.page === null && screen.commands ? hintRule(columns) : row('-'.repeat(columns), 'faint')
  const bottom = [rule, ...near, ...kept, prompt]

  const text = view.page === null ? mainLines(screen, width, now) : pageRows(view.page, width)
  // What finds no room at the bottom is read with the step, behind it: nothing is cut off.
  const behind = [...said.slice(near.length), ...asked.slice(kept.length)].flatMap(({ text: long, tone }) =>
    wrap(long, width, '  ').map((part) => row(part, tone))
  )
  const main = behind.length === 0 ? text : [...text, row('', 'plain'), ...behind]
  const height = Math.max(1, rows - top.length - bottom.length)
  const page = main.length > height ? Math.max(1, height - 1) : height
  const scroll = Math.max(0, Math.min(view.scroll, main.length - page))
  const shown = main.slice(scroll, scroll + page)
  const below = Math.max(0, main.length - scroll - page)
  const middle = [...shown, ...Array.from({ length: page - shown.length }, () => row('', 'plain'))]
  if (main.length > height) middle.push(row(fit(moreLine(below), width), 'strong'))
  const panel = beside ? besideLines(screen, panelWidth, middle.length) : []
  const joined = beside ? middle.map((left, index) => besideRow(left, width, panel[index])) : middle
  return { rows: [...top, ...joined, ...bottom].slice(0, Math.max(1, rows)), scroll, below, page }
}

/** The line above the question names the commands, so that they are in sight whatever the step needs. */
function hintRule(columns: number): Row {
  const fitting = hints.filter((_, index) => hints.slice(0, index + 1).join(', ').length <= columns - 4)
  return row(
    pad(`- ${fitting.join(', ')} `, columns).replace(/ +$/, (gap) => ` ${'-'.repeat(gap.length - 1)}`),
    'plain'
  )
}

function moreLine(below: number): string {
  return below === 0 ? '-- end; PageUp: back --' : `-- ${below} more lines: PageDown or Enter --`
}

function besideRow(left: Row, width: number, right: Row | undefined): Row {
  return {
    text: `${pad(left.text, width)} | ${right?.text ?? ''}`,
    tone: left.tone
  }
}

function headRows(screen: Screen, columns: number): readonly Row[] {
  const mode = screen.mode === null ? '' : ` ${screen.mode}`
  const by = fit(` by ${screen.person}`, Math.floor(columns / 2))
  const { step, about } = screen.way
  const where = `${screen.section === null ? '' : `${screen.section}, `}step ${step} of about ${about}`
  const room = columns - columnsOf(where) - 1
  return [
    row(`${pad(screen.procedure, columns - mode.length)}${mode}`, 'strong'),
    row(`${pad(screen.equipment, columns - columnsOf(by))}${by}`, 'plain'),
    row(
      room >= 10 ? `${where} ${bar((step - 1) / Math.max(1, about - 1), Math.min(room, 30))}` : fit(where, columns),
      'plain'
    )
  ]
}

function questionRows({ question }: Screen, columns: number): readonly Row[] {
  return wrap(question, columns, '  ').map((text) => row(text, 'strong'))
}

function askedRows(screen: Screen, columns: number): readonly Row[] {
  return [
    ...questionRows(screen, columns),
    ...screen.keys
      .flatMap(({ type, does }) => wrap(`  ${type}: ${does}`, columns, '    '))
      .map((text) => row(text, 'plain'))
  ]
}

function promptRow(screen: Screen, { line }: View, columns: number): Row {
  const typed = screen.secret ? '*'.repeat([...line].length) : line
  const room = Math.max(1, columns - 3)
  let shown = typed
  while (columnsOf(shown) > room) shown = [...shown].slice(1).join('')
  return row(`> ${shown}_`, 'strong')
}

function pageRows(page: NonNullable<View['page']>, width: number): readonly Row[] {
  return [
    ...wrap(page.title, width).map((text) => row(text, 'strong')),
    row('', 'plain'),
    ...page.lines.flatMap((text) => wrap(text, width, '    ')).map((text) => row(text, 'plain'))
  ]
}
