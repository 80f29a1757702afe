import type { Screen } from '../step/screen.js'
import { fit } from '../text/columns.js'
import { wrap } from '../text/wrap.js'
import { type Row, row } from './main-lines.js'

/** The panel beside the step: sources by shape and word, locks with their owners, the crew; never more than so many lines. */
export function besideLines({ energies, locks, crew }: Screen, width: number, height: number): readonly Row[] {
  const list = (texts: readonly string[], none: string, indent: string): readonly Row[] =>
    (texts.length === 0 ? [none] : texts)
      .flatMap((text) => wrap(text, width, indent))
      .map((text) => row(fit(text, width), 'plain'))
  const sources = energies.map(
    ({ source, shape, word, more }) => `${shape} ${source} ${word.toUpperCase()}${more === '' ? '' : `, ${more}`}`
  )
  const parts = [
    [row('SOURCES', 'strong'), ...list(sources, 'none', '    ')],
    [row('LOCKS', 'strong'), ...list(locks, 'none', '  ')],
    [
      row('UNDER THE LOCKOUT', 'strong'),
      ...list(
        [crew.join(', ')].filter((text) => text !== ''),
        'nobody',
        '  '
      )
    ]
  ]
  const airy = parts.flatMap((part, index) => (index === 0 ? part : [row('', 'plain'), ...part]))
  if (airy.length <= height) return airy
  const dense = parts.flat()
  return dense.length <= height
    ? dense
    : [...dense.slice(0, height - 1), row(fit('more: type sources', width), 'strong')]
}

const mostLines = 3

/** The same in a few lines above the step; what finds no room is counted and can be asked for. */
export function narrowLines({ energies, locks }: Screen, columns: number): readonly Row[] {
  const sources: string[] = []
  for (const [index, { source, shape, word }] of energies.entries()) {
    const token = `${shape} ${source} ${word.toUpperCase()}`
    const last = sources.at(-1)
    const joined = last === undefined ? token : `${last}  ${token}`
    if (last !== undefined && joined.length <= columns) sources[sources.length - 1] = joined
    else if (sources.length < mostLines) sources.push(fit(token, columns))
    else {
      const hidden = energies.length - index
      sources[mostLines - 1] = fit(`${fit(last ?? '', columns - 22)} +${hidden}: type sources`, columns)
      break
    }
  }
  const hung =
    locks.length === 0 ? 'no locks' : `${locks.length === 1 ? '' : `${locks.length} locks, `}${locks.join(', ')}`
  return [...sources, fit(hung, columns)].map((text) => row(text, 'plain'))
}
