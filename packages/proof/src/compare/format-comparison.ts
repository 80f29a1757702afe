import { printable, reportWidth, wrapped } from '../columns.js'
import type { Change, Comparison, Tendency } from './comparison.js'

const titles: Readonly<Record<Tendency, string>> = {
  loosening: 'Loosened: less is asked than before',
  tightening: 'Tightened: more is asked than before',
  neutral: 'Neither, or not to be told'
}

/** A comparison as text for a terminal; `files` names the two where their procedure and revision do not tell them apart. */
export function formatComparison(
  comparison: Comparison,
  files?: { readonly old: string; readonly next: string }
): string {
  const { old, next, changes } = comparison
  const name = (one: Comparison['old'], file: string | undefined): string =>
    `${one.procedure} revision ${one.revision}${file === undefined ? '' : ` (${file})`}`
  const lines = [
    ...wrapped(`${name(old, files?.old)} to ${name(next, files?.next)}`, reportWidth),
    ...(changes.length === 0 ? ['', 'Nothing changed in meaning.'] : []),
    ...(['loosening', 'tightening', 'neutral'] as const).flatMap((tendency) => group(tendency, changes))
  ]
  return lines.map((line) => `${line.trimEnd()}\n`).join('')
}

function group(tendency: Tendency, all: readonly Change[]): readonly string[] {
  const changes = all.filter((change) => change.tendency === tendency)
  if (changes.length === 0) return []
  return ['', `${titles[tendency]} (${changes.length})`, ...changes.flatMap(told)]
}

const longestWay = 12

function told({ what, why, old, next, way }: Change): readonly string[] {
  const places = [
    ...(old === null ? [] : [`old line ${old.line}`]),
    ...(next === null ? [] : [`new line ${next.line}`])
  ].join(', ')
  const shown = way.length > longestWay ? way.slice(-longestWay) : way
  return [
    '',
    ...wrapped(what, reportWidth - 2).map((line) => `  ${line}`),
    ...wrapped(why, reportWidth - 4).map((line) => `    ${line}`),
    ...(places === '' ? [] : [`    ${places}`]),
    ...(way.length === 0 ? [] : ['    The shortest such way:']),
    ...(shown.length < way.length ? [`      ... ${way.length - shown.length} steps ...`] : []),
    ...shown.map(({ line, title }) => `      line ${line}  ${printable(title)}`)
  ]
}
