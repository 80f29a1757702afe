import { commandsNamed } from '../step/commands-named.js'
import type { Screen } from '../step/screen.js'
import { bar } from '../text/bar.js'
import { columnsOf, fit, pad } from '../text/columns.js'
import { countdownLine } from '../text/countdown-line.js'
import { visible } from '../text/visible.js'
import { wrap } from '../text/wrap.js'
import { mainLines } from './main-lines.js'
import { besideLines, narrowLines } from './panel-lines.js'
import { type Row, row } from './row.js'
import { isTooSmall, tooSmallRows } from './too-small.js'

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

/** Lines that the step itself always has. */
const leastMain = 4

/** With fewer rows than this, one line has to do for all sources, so that the question stays in sight. */
const low = 14

/** With fewer rows than this on a narrow screen, the head is short. */
const roomy = 24

/** With as many, a plot can be larger. */
const tall = 40

/** Longer lines are hard to follow. */
const widest = 100

/** Narrower than this, the sources stand above the step instead of beside it. */
const narrow = 60

/** Lays a screen out for a terminal of any size; `now` (RFC 3339) moves the bars alone. */
export function frameOf(screen: Screen, view: View, size: Size, now: string): Frame {
  const { columns, rows } = size
  if (isTooSmall(size)) return { rows: tooSmallRows(size), scroll: 0, below: 0, page: 1 }
  const beside = columns >= narrow
  const panelWidth = beside ? Math.min(40, Math.max(26, Math.floor(columns / 3))) : 0
  const width = Math.min(widest, beside ? columns - panelWidth - 3 : columns)
  const head = headRows(screen, size)
  const sources = beside ? [] : narrowLines(screen, columns, rows < low ? 1 : Math.max(3, Math.floor(rows / 5)))
  const warned = warningRows(screen, columns, rows)
  const counted = screen.countdowns.flatMap((countdown) => countdownRows(countdown, size, now))
  const top = [...head, ...sources, ...warned.rows, ...counted, row('-'.repeat(columns), 'faint')]

  const said = view.said.flatMap((text) => wrap(text, columns, '  ')).map((text) => row(text, 'strong'))
  const asked =
    view.page === null
      ? askedRows(screen, columns)
      : wrap('Enter or Escape: back to the step', columns).map((text) => row(text, 'plain'))
  // What was said last stands beside the line that it answers, as far as it leaves room for the step at all.
  const near = said.slice(0, Math.floor((rows - top.length - 2) / 2))
  const room = rows - top.length - 2 - near.length - leastMain
  // Where not all of it fits, the question itself stays at the bottom and what can be typed is read with the step.
  const question = view.page === null ? questionRows(screen, columns) : asked
  const kept = asked.length <= room ? asked : question.length <= room ? question : []
  const prompt = promptRow(screen, view, columns)
  const rule = view.page === null && screen.commands ? hintRule(columns) : row('-'.repeat(columns), 'faint')
  const bottom = [rule, ...near, ...kept, prompt]

  const step = view.page === null ? mainLines(screen, width, rows >= tall) : pageRows(view.page, width)
  const text = [...warned.cut.flatMap((long) => wrap(long, width)).map((part) => row(part, 'alarm')), ...step]
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
  const lead = columns < 32 ? '- ' : '- also: '
  const room = columns - lead.length - 2
  const fitting = commandsNamed.filter((_, index) => commandsNamed.slice(0, index + 1).join(', ').length <= room)
  return row(
    pad(`${lead}${fitting.join(', ')} `, columns).replace(/ +$/, (gap) => ` ${'-'.repeat(gap.length - 1)}`),
    'plain'
  )
}

function moreLine(below: number): string {
  return below === 0 ? '-- end; PageUp: back --' : `-- ${below} more lines: PageDown or Enter --`
}

function besideRow(left: Row, width: number, right: Row | undefined): Row {
  return { text: pad(left.text, width), tone: left.tone, beside: right ?? row('', 'plain') }
}

function headRows(screen: Screen, { columns, rows }: Size): readonly Row[] {
  const mode = screen.mode === null ? '' : ` ${screen.mode}`
  const by = fit(` by ${screen.person}`, Math.floor(columns / 2))
  const { step, about } = screen.way
  const place = `step ${step} of about ${about}`
  const where = `${screen.section === null ? '' : `${screen.section}, `}${place}`
  const ends = (left: string, right: string): string => `${pad(left, columns - columnsOf(right))}${right}`
  const both = (left: string, right: string): readonly string[] => {
    const lines = wrap(left, columns)
    const last = lines.at(-1) ?? ''
    if (rows < roomy || (lines.length === 1 && columnsOf(last + right) <= columns)) return [ends(left, right)]
    return columnsOf(last + right) <= columns
      ? [...lines.slice(0, -1), ends(last, right)]
      : [...lines, ...(right === '' ? [] : [ends('', right)])]
  }
  // Where lines are few, the machine and the place are told without the title of the procedure.
  if (columns < narrow && rows < roomy) {
    const short = columnsOf(where) + columnsOf(by) <= columns ? where : place
    return [row(ends(screen.equipment, mode), 'strong'), row(ends(short, by), 'plain')]
  }
  const room = columns - columnsOf(where) - 1
  const stands =
    room >= 10
      ? [`${where} ${bar((step - 1) / Math.max(1, about - 1), Math.min(room, 30))}`]
      : room >= 0 || rows < roomy
        ? [room >= 0 ? where : place]
        : wrap(where, columns)
  return [
    ...both(screen.procedure, mode).map((text) => row(text, 'strong')),
    ...both(screen.equipment, by).map((text) => row(text, 'plain')),
    ...stands.map((text) => row(text, 'plain'))
  ]
}

/** Above the step, so that they are in sight whatever is read; one that is too long is cut and read with the step. */
function warningRows(
  { warnings }: Screen,
  columns: number,
  rows: number
): { readonly rows: readonly Row[]; readonly cut: readonly string[] } {
  const whole = warnings.flatMap((text) => wrap(`!! ${text}`, columns))
  const most = Math.max(1, Math.floor(rows / 6))
  if (whole.length <= most) return { rows: whole.map((text) => row(text, 'alarm')), cut: [] }
  const kept = warnings.slice(0, most).map((text) => row(fit(`!! ${text}`, columns), 'alarm'))
  return { rows: kept, cut: warnings }
}

/** A clock that runs, with a bar beside it or above it where there is room for one. */
function countdownRows(countdown: Screen['countdowns'][number], { columns, rows }: Size, now: string): readonly Row[] {
  const text = countdownLine(countdown, now)
  const room = columns - columnsOf(text) - 1
  const whole = Date.parse(countdown.until) - Date.parse(countdown.startedAt)
  const left = Math.max(0, Date.parse(countdown.until) - Date.parse(now))
  const share = whole <= 0 ? 1 : 1 - left / whole
  if (room >= 8) return [row(`${bar(share, Math.min(room, 50))} ${text}`, 'strong')]
  const words = row(fit(text, columns), 'strong')
  return rows < low ? [words] : [row(bar(share, columns), 'strong'), words]
}

function questionRows({ question }: Screen, columns: number): readonly Row[] {
  return wrap(question, columns, '  ').map((text) => row(text, 'strong'))
}

function askedRows(screen: Screen, columns: number): readonly Row[] {
  return [
    ...questionRows(screen, columns),
    ...screen.keys
      .flatMap(({ type, does }) => wrap(`  type ${type}: ${does}`, columns, '    '))
      .map((text) => row(text, 'plain'))
  ]
}

function promptRow(screen: Screen, { line }: View, columns: number): Row {
  const typed = screen.secret ? '*'.repeat([...line].length) : visible(line)
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
