import { parseQuantity } from '@lockwright/energy'
import bidiFactory, { type Bidi } from 'bidi-js'

// The package is CommonJS, whose one export its types call a default: Node gives the function itself.
const bidi = (bidiFactory as unknown as () => Bidi)()

/** Hebrew, Arabic and the scripts beside them, with their presentation forms. */
const turned = /[\u0590-\u08FF\uFB1D-\uFDFF\uFE70-\uFEFC]/

/** True where a text holds anything that is read from right to left. */
export function readsRightToLeft(text: string): boolean {
  return turned.test(text)
}

/** The direction of a paragraph: that of its first letter (Unicode Standard Annex 9, rules P2 and P3). */
export function directionOf(text: string): 'ltr' | 'rtl' {
  const level = bidi.getEmbeddingLevels(text, 'auto').paragraphs[0]?.level ?? 0
  return level % 2 === 1 ? 'rtl' : 'ltr'
}

/** A part of a line that is set in one go; where it stood in the text as it is read. */
export interface VisualPiece {
  readonly from: number
  readonly text: string
}

/**
 * The pieces of one line from left to right as they are seen (Annex 9, rule L2), brackets mirrored (L4). A piece of a
 * right-to-left script keeps its letters in reading order: the font's own shaping turns and joins them. `cuts` are
 * places where a piece must end (a change of face); blanks are pieces of their own.
 */
export function visualPieces(text: string, base: 'ltr' | 'rtl', cuts: readonly number[]): readonly VisualPiece[] {
  const { levels } = bidi.getEmbeddingLevels(masked(text), base)
  const level = (at: number): number => levels[at] ?? 0
  const pieces: { from: number; to: number; level: number }[] = []
  for (let at = 0; at < text.length; at += 1) {
    const last = pieces.at(-1)
    const alone = text[at] === ' ' || text[at - 1] === ' ' || cuts.includes(at)
    if (last === undefined || alone || level(at) !== last.level) pieces.push({ from: at, to: at + 1, level: level(at) })
    else last.to = at + 1
  }
  return reordered(pieces).map(({ from, to, level }) => {
    const own = text.slice(from, to)
    return { from, text: level % 2 === 1 ? turnedText(own) : keptText(own) }
  })
}

/** A number and its unit, which stay in this order whatever is around them. */
const quantity = /\d[\d.,]*[ \u00A0][A-Za-zµμΩ°%][A-Za-z0-9µμΩ°%·/²³]*/g

/** For the levels alone: quantities as if they were letters, so that no rule parts a number from its unit. */
function masked(text: string): string {
  return text.replace(quantity, (found) => (parseQuantity(found).ok ? 'a'.repeat(found.length) : found))
}

function reordered<Piece extends { readonly level: number }>(pieces: readonly Piece[]): readonly Piece[] {
  const highest = Math.max(0, ...pieces.map(({ level }) => level))
  const out = [...pieces]
  for (let least = highest; least >= 1; least -= 1) {
    for (let from = 0; from < out.length; from += 1) {
      if ((out[from]?.level ?? 0) < least) continue
      let to = from
      while ((out[to + 1]?.level ?? 0) >= least) to += 1
      out.splice(from, to - from + 1, ...out.slice(from, to + 1).reverse())
      from = to
    }
  }
  return out
}

/** Arabic digits are read from left to right, and the font would turn them: they are given to it turned. */
function keptText(text: string): string {
  return readsRightToLeft(text) ? [...text].reverse().join('') : text
}

/** Brackets mirrored; where no letter of the script is with them, the font would not turn them either. */
function turnedText(text: string): string {
  const mirrored = [...text].map((sign) => bidi.getMirroredCharacter(sign) ?? sign)
  return readsRightToLeft(text) ? mirrored.join('') : mirrored.reverse().join('')
}
