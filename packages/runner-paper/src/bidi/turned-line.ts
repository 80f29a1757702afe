import type { Line, Segment } from '../text/break-lines.js'
import type { Face, Metrics } from '../text/metrics.js'
import { directionOf, readsRightToLeft, visualPieces } from './visual-pieces.js'

type Words = readonly (readonly { readonly text: string; readonly face: Face }[])[]

/** One line that holds a right-to-left script, in the order in which it is seen; at the right where its paragraph is. */
export function turnedLine(
  words: Words,
  base: 'ltr' | 'rtl',
  width: number,
  size: number,
  space: number,
  metrics: Metrics
): Line {
  const faces: Face[] = []
  const cuts: number[] = []
  let text = ''
  words.forEach((word, index) => {
    if (index > 0) {
      text += ' '
      faces.push('regular')
    }
    for (const part of word) {
      if (faces.at(-1) !== part.face) cuts.push(text.length)
      text += part.text
      faces.push(...Array.from({ length: part.text.length }, () => part.face))
    }
  })
  const segments: Segment[] = []
  let x = 0
  for (const piece of visualPieces(text, base, cuts)) {
    if (piece.text === ' ') {
      x += space
      continue
    }
    const face = faces[piece.from] ?? 'regular'
    segments.push({ text: piece.text, face, x })
    x += metrics.width(piece.text, face, size)
  }
  const by = base === 'rtl' ? Math.max(0, width - x) : 0
  return { segments: segments.map((segment) => ({ ...segment, x: segment.x + by })), width: x + by }
}

/** A label of one line as it is seen, from its left end; as it is where nothing in it is read from right to left. */
export function labelSegments(text: string, face: Face, size: number, metrics: Metrics): readonly Segment[] {
  if (!readsRightToLeft(text)) return [{ text, face, x: 0 }]
  const words = text.split(' ').filter((word) => word !== '')
  const parts = words.map((word) => [{ text: word, face }])
  return turnedLine(parts, directionOf(text), 0, size, metrics.width(' ', face, size), metrics).segments
}
