import type { Runs } from '@lockwright/language'
import { turnedLine } from '../bidi/turned-line.js'
import { directionOf, readsRightToLeft } from '../bidi/visual-pieces.js'
import { type Face, faceOf, type Metrics } from './metrics.js'

/** One line of set text; each segment starts `x` points from its left end. */
export interface Line {
  readonly segments: readonly Segment[]
  readonly width: number
}

export interface Segment {
  readonly text: string
  readonly face: Face
  readonly x: number
}

type Word = readonly { readonly text: string; readonly face: Face; readonly width: number }[]

/** Sets runs in lines no wider than `width` points. A word that is wider than a line is cut; nothing is dropped. */
export function breakLines(
  runs: Runs,
  width: number,
  size: number,
  metrics: Metrics,
  base: Face = 'regular'
): readonly Line[] {
  const plain = plainLines(runs, width, size, metrics, base)
  if (plain !== null) return plain
  const lines: Line[] = []
  let words: Word[] = []
  let filled = 0
  const usual = metrics.width(' ', base, size)
  // A blank is as wide as the face before it has it: in bold wider than in regular.
  const blank = (face: Face): number => (face === base ? usual : metrics.width(' ', face, size))
  const text = runs.map((run) => (run.kind === 'break' ? ' ' : run.text)).join('')
  const turned = readsRightToLeft(text) ? directionOf(text) : null
  const flush = (): void => {
    lines.push(turned === null ? lineOf(words, blank) : turnedLine(words, turned, width, size, usual, metrics))
    words = []
    filled = 0
  }
  for (const word of wordsOf(runs, width, size, metrics, base)) {
    if (word === 'break') {
      flush()
      continue
    }
    const wide = word.reduce((sum, part) => sum + part.width, 0)
    const space = blank(words.at(-1)?.at(-1)?.face ?? base)
    if (words.length > 0 && filled + space + wide > width) flush()
    filled = words.length === 0 ? wide : filled + space + wide
    words.push(word)
  }
  if (words.length > 0) flush()
  return lines
}

/** The lines of one run in one face, as nearly every text of a sheet is; null for all that needs more thought. */
function plainLines(runs: Runs, width: number, size: number, metrics: Metrics, base: Face): readonly Line[] | null {
  const [run, ...more] = runs
  if (run === undefined || more.length > 0 || run.kind === 'break' || readsRightToLeft(run.text)) return null
  const face = faceOf(run, base)
  const space = metrics.width(' ', face, size)
  const lines: Line[] = []
  let text = ''
  let filled = 0
  for (const word of run.text.split(/[ \t\n\r]+/)) {
    if (word === '') continue
    const wide = metrics.width(word, face, size)
    if (wide > width) return null
    if (text !== '' && filled + space + wide <= width) {
      text += ` ${word}`
      filled += space + wide
      continue
    }
    if (text !== '') lines.push({ segments: [{ text, face, x: 0 }], width: filled })
    text = word
    filled = wide
  }
  if (text !== '') lines.push({ segments: [{ text, face, x: 0 }], width: filled })
  return lines
}

/** Words with their faces; `break` where the author broke the line. */
function wordsOf(runs: Runs, width: number, size: number, metrics: Metrics, base: Face): readonly (Word | 'break')[] {
  const words: (Word | 'break')[] = []
  let open: { text: string; face: Face; width: number }[] = []
  const close = (): void => {
    if (open.length > 0) words.push(...fitted(open, width, size, metrics))
    open = []
  }
  for (const run of runs) {
    if (run.kind === 'break') {
      close()
      words.push('break')
      continue
    }
    const face = faceOf(run, base)
    run.text.split(/[ \t\n\r]+/).forEach((text, index) => {
      if (index > 0) close()
      if (text !== '') open.push({ text, face, width: metrics.width(text, face, size) })
    })
  }
  close()
  return words
}

/** The word itself, or pieces of it where it is wider than a line. */
function fitted(word: Word, width: number, size: number, metrics: Metrics): readonly Word[] {
  if (word.reduce((sum, part) => sum + part.width, 0) <= width) return [word]
  const pieces: Word[] = []
  for (const { text, face } of word) {
    let piece = ''
    for (const sign of text) {
      if (piece !== '' && metrics.width(piece + sign, face, size) > width) {
        pieces.push([{ text: piece, face, width: metrics.width(piece, face, size) }])
        piece = ''
      }
      piece += sign
    }
    pieces.push([{ text: piece, face, width: metrics.width(piece, face, size) }])
  }
  return pieces
}

function lineOf(words: readonly Word[], blank: (face: Face) => number): Line {
  const segments: { text: string; face: Face; x: number }[] = []
  let x = 0
  words.forEach((word, index) => {
    const before = segments.at(-1)
    if (before !== undefined && index > 0) x += blank(before.face)
    word.forEach((part, at) => {
      const last = segments.at(-1)
      if (last !== undefined && last.face === part.face) last.text += `${index > 0 && at === 0 ? ' ' : ''}${part.text}`
      else {
        // The blank before a change of face belongs to the text, so that words stay apart when it is read out.
        if (last !== undefined && index > 0 && at === 0) last.text += ' '
        segments.push({ text: part.text, face: part.face, x })
      }
      x += part.width
    })
  })
  return { segments, width: x }
}
