import { columnsOf, columnsOfCharacter } from './columns.js'

/**
 * Breaks one visible line at spaces so that nothing is wider than `width`; a longer word is broken where it must be.
 * Lines after the first begin with `indent`.
 */
export function wrap(text: string, width: number, indent = ''): readonly string[] {
  const room = Math.max(width, columnsOf(indent) + 2)
  // What fits is left as it is: columns of a table or a plot stay columns.
  if (columnsOf(text) <= room) return [text]
  const lines: string[] = []
  let line = leadOf(text)
  let empty = true
  for (const word of text.split(' ')) {
    if (word === '') continue
    const gap = empty ? '' : ' '
    if (columnsOf(line) + gap.length + columnsOf(word) <= room) {
      line += gap + word
      empty = false
      continue
    }
    if (!empty) {
      lines.push(line)
      line = indent
    }
    for (const piece of pieces(word, room - columnsOf(line), room - columnsOf(indent))) {
      if (line !== indent && !empty) {
        lines.push(line)
        line = indent
      }
      line += piece
      empty = false
    }
  }
  lines.push(line)
  return lines
}

/** The spaces that a line begins with belong to it: they are its place in a list. */
function leadOf(text: string): string {
  return /^ */.exec(text)?.[0] ?? ''
}

function pieces(word: string, first: number, later: number): readonly string[] {
  const parts: string[] = []
  let part = ''
  let columns = 0
  for (const character of word) {
    const width = columnsOfCharacter(character)
    if (part !== '' && columns + width > (parts.length === 0 ? first : later)) {
      parts.push(part)
      part = ''
      columns = 0
    }
    part += character
    columns += width
  }
  return [...parts, part]
}
