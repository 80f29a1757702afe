import type { Diagnostic, Place, Point } from '@lockwright/language'
import { isAlias, isMap, isScalar, isSeq, LineCounter, type Node, parseDocument, type YAMLMap } from 'yaml'
import { fault } from './fault.js'

/** A YAML value in which every scalar is the text as it was written, with its place. */
export type Written =
  | { readonly kind: 'text'; readonly place: Place; readonly text: string }
  | { readonly kind: 'list'; readonly place: Place; readonly items: readonly Written[] }
  | { readonly kind: 'map'; readonly place: Place; readonly pairs: readonly Pair[] }

export interface Pair {
  readonly key: string
  readonly place: Place
  readonly value: Written
}

const largest = 1024 * 1024

/** Reads YAML with nothing guessed: `017` stays `017`, `no` stays `no`. All faults come back at once. */
export function readYaml(
  source: string,
  file: string
): { readonly value: Written | null; readonly faults: readonly Diagnostic[] } {
  const whole = source.replace(/^\ufeff/, '')
  const lines = new LineCounter()
  const point = (offset: number): Point => {
    const { line, col } = lines.linePos(offset)
    return { line: Math.max(1, line), column: Math.max(1, col), offset }
  }
  const place = (start: number, end: number): Place => ({ file, start: point(start), end: point(end) })
  if (whole.length > largest) {
    const where: Place = { file, start: { line: 1, column: 1, offset: 0 }, end: { line: 1, column: 1, offset: 0 } }
    return {
      value: null,
      faults: [
        fault('answers-too-long', where, 'The file is larger than 1 MiB.', 'Give the answers of one run in a file.')
      ]
    }
  }
  const document = parseDocument(whole, {
    lineCounter: lines,
    schema: 'failsafe',
    uniqueKeys: true,
    logLevel: 'silent'
  })
  const faults = document.errors.map((error) =>
    fault(
      'answers-yaml',
      place(error.pos[0], error.pos[1]),
      `This is not YAML: ${error.message.split('\n')[0] ?? ''}`,
      'Write it as YAML: one `- ` before each entry, `key: value` inside it.'
    )
  )
  const placeOf = (node: Node | null): Place => place(node?.range?.[0] ?? 0, node?.range?.[1] ?? 0)
  const empty = (where: Place): Written => ({ kind: 'text', place: where, text: '' })

  const written = (node: unknown, around: Place): Written => {
    if (isScalar(node))
      return { kind: 'text', place: placeOf(node), text: node.value === null ? '' : String(node.value) }
    if (isSeq(node))
      return { kind: 'list', place: placeOf(node), items: node.items.map((item) => written(item, placeOf(node))) }
    if (isMap(node)) return { kind: 'map', place: placeOf(node), pairs: pairsOf(node) }
    if (isAlias(node)) {
      faults.push(
        fault(
          'answers-alias',
          placeOf(node),
          `\`*${node.source}\` stands for something written elsewhere.`,
          'Write it out: every answer is given where it stands.'
        )
      )
    }
    return empty(around)
  }
  const pairsOf = (map: YAMLMap): readonly Pair[] =>
    map.items.map(({ key, value }): Pair => {
      const where = placeOf(isScalar(key) ? key : map)
      return {
        key: isScalar(key) ? String(key.value) : '',
        place: where,
        value: value === null ? empty(where) : written(value, where)
      }
    })
  if (faults.length > 0) return { value: null, faults }
  const value = document.contents === null ? null : written(document.contents, place(0, 0))
  return { value, faults }
}
