import type { Energy } from '../step/energies.js'
import type { Screen } from '../step/screen.js'
import { columnsOf, fit } from '../text/columns.js'
import { wrap } from '../text/wrap.js'
import { type Row, row, type Tone } from './row.js'

type Listed = 'source' | 'lock' | 'line'

/** Lines that stay together, and what they tell of. */
interface Item {
  readonly of: Listed
  readonly rows: readonly Row[]
}

/** The panel beside the step: sources by shape and word, locks with their owners, the crew; never more than so many lines. */
export function besideLines({ energies, locks, crew }: Screen, width: number, height: number): readonly Row[] {
  const item = (of: Listed, text: string, indent: string, tone: Tone = 'plain'): Item => ({
    of,
    rows: wrap(text, width, indent).map((part) => row(fit(part, width), tone))
  })
  const heading = (text: string): Item => ({ of: 'line', rows: [row(text, 'strong')] })
  const list = (of: Listed, texts: readonly string[], none: string, indent: string): readonly Item[] =>
    texts.length === 0 ? [item('line', none, indent)] : texts.map((text) => item(of, text, indent))
  const parts = (sources: readonly Energy[]): readonly (readonly Item[])[] => [
    [heading('SOURCES'), ...sources.map((energy) => item('source', tellSource(energy), '    ', toneOf(energy)))],
    [heading('LOCKS'), ...list('lock', locks, 'none', '  ')],
    [heading('UNDER THE LOCKOUT'), ...list('line', crew.length === 0 ? [] : [crew.join(', ')], 'nobody', '  ')]
  ]
  const airy = parts(energies).flatMap((part, index) =>
    index === 0 ? part : [{ of: 'line' as const, rows: [row('', 'plain')] }, ...part]
  )
  const dense = parts(energies).flat()
  for (const items of [airy, dense]) {
    const rows = items.flatMap((each) => each.rows)
    if (rows.length <= height) return rows
  }
  return cutShort(parts(mostUrgentFirst(energies)).flat(), width, height)
}

/** What can hurt, and what was shown to be dead; both are told by shape and word. */
function toneOf({ word }: Energy): Tone {
  if (word === 'on' || word === 'not dead') return 'live'
  return word === 'proven' ? 'dead' : 'plain'
}

function tellSource({ source, shape, word, more }: Energy): string {
  return `${shape} ${source} ${word.toUpperCase()}${more === '' ? '' : `, ${more}`}`
}

/** As many whole entries as there is room for; the last line counts the others and says where they stand. */
function cutShort(items: readonly Item[], width: number, height: number): readonly Row[] {
  const shown: Row[] = []
  let taken = 0
  for (const { rows } of items) {
    if (shown.length + rows.length > height - 1) break
    shown.push(...rows)
    taken++
  }
  const left = items.slice(taken)
  const count = (of: Listed, word: string): readonly string[] => {
    const number = left.filter((each) => each.of === of).length
    return number === 0 ? [] : [`${number} ${word}${number === 1 ? '' : 's'}`]
  }
  const hidden = [...count('source', 'source'), ...count('lock', 'lock')].join(', ')
  return [...shown, row(fit(`${hidden === '' ? 'more' : `+${hidden}`}: type sources`, width), 'strong')]
}

const urgency: readonly Energy['word'][] = [
  'not dead',
  'on',
  'off',
  'holds energy',
  'held',
  'locked',
  'nothing feeds it',
  'released',
  'proven'
]

/** What can hurt stands first where not everything can be shown. */
function mostUrgentFirst(energies: readonly Energy[]): readonly Energy[] {
  return energies.toSorted((one, other) => urgency.indexOf(one.word) - urgency.indexOf(other.word))
}

/** The same in a few lines above the step; what finds no room is counted by its words and can be asked for. */
export function narrowLines(
  { energies, locks, locksInShort, crew }: Screen,
  columns: number,
  most: number
): readonly Row[] {
  const whole = [
    `SOURCES ${energies.map(tellSource).join('; ')}`,
    `LOCKS ${locks.length === 0 ? 'none' : locks.join('; ')}`,
    `UNDER THE LOCKOUT ${crew.length === 0 ? 'nobody' : crew.join(', ')}`
  ].flatMap((text) => wrap(text, columns, '  '))
  if (whole.length <= most) return whole.map((text) => row(text, 'plain'))
  const all = packed(energies, columns)
  const sources = all.lines.length <= most ? all.lines : cutNarrow(mostUrgentFirst(energies), columns, most)
  const hung = locksInShort.length === 0 ? 'no locks' : `locks: ${locksInShort.join('; ')}`
  return [...sources, fit(hung, columns)].map((text) => row(text, 'plain'))
}

/** Sources side by side, as many to a line as fit; `ends`: how many stand in the lines up to each. */
function packed(
  energies: readonly Energy[],
  columns: number
): { readonly lines: readonly string[]; readonly ends: readonly number[] } {
  const lines: string[] = []
  const ends: number[] = []
  for (const [index, { source, shape, word }] of energies.entries()) {
    const token = fit(`${shape} ${source} ${word.toUpperCase()}`, columns)
    const last = lines.at(-1)
    const joined = last === undefined ? token : `${last}  ${token}`
    if (last === undefined || columnsOf(joined) > columns) lines.push(token)
    else lines[lines.length - 1] = joined
    ends[lines.length - 1] = index + 1
  }
  return { lines, ends }
}

/** The last line says how the sources that it has no room for stand, word by word. */
function cutNarrow(energies: readonly Energy[], columns: number, most: number): readonly string[] {
  const { lines, ends } = packed(energies, columns)
  const kept = most - 1
  const hidden = energies.slice(kept === 0 ? 0 : (ends[kept - 1] ?? 0))
  const words = [...new Set(hidden.map(({ word }) => word))].map(
    (word) => `${hidden.filter((each) => each.word === word).length} ${word.toUpperCase()}`
  )
  const whole = `+${hidden.length} (${words.join(', ')}): type sources`
  const shorter = [whole, `+${hidden.length} more: type sources`, `+${hidden.length}: type sources`]
  const last = shorter.find((text) => columnsOf(text) <= columns) ?? `+${hidden.length}`
  return [...lines.slice(0, kept), last]
}
