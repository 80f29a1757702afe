/** Widest line that a report prints, in terminal columns. */
export const reportWidth = 100

const wide =
  /^[\u1100-\u115f\u2e80-\u303e\u3041-\ua4cf\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe6f\uff01-\uff60\uffe0-\uffe6\u{1f300}-\u{1faff}\u{20000}-\u{3fffd}]$/u
const noWidth = /^(?:\p{Mn}|\p{Me}|\u200d)$/u
// Everything that could move the cursor, change the terminal or turn the reading direction.
const unprintable = /[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Cs}]/u

/** Columns that the text takes in a terminal. */
export function columnsOf(text: string): number {
  let columns = 0
  for (const character of text) columns += noWidth.test(character) ? 0 : wide.test(character) ? 2 : 1
  return columns
}

/** The text with nothing in it that a terminal obeys: a tab becomes two spaces, any other control its code point. */
export function printable(text: string): string {
  if (!unprintable.test(text)) return text
  let shown = ''
  for (const character of text) {
    if (character === '\t') shown += '  '
    else if (character === '\u200d' || !unprintable.test(character)) shown += character
    else shown += `<U+${(character.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}>`
  }
  return shown
}

/** The longest beginning of the text that is no wider than `width`. */
export function fitted(text: string, width: number): string {
  let taken = ''
  let used = 0
  for (const character of text) {
    used += columnsOf(character)
    if (used > width) break
    taken += character
  }
  return taken
}

/** Breaks prose at spaces so that no line is wider than `width`; a word that is wider is broken where it must be. */
export function wrapped(prose: string, width: number): readonly string[] {
  const lines: string[] = []
  let line = ''
  let used = 0
  const words = printable(prose.replace(/\s+/gu, ' ').trim()).split(' ')
  for (const word of words.flatMap((one) => broken(one, width))) {
    const columns = columnsOf(word)
    if (line !== '' && used + 1 + columns > width) {
      lines.push(line)
      line = word
      used = columns
    } else {
      used += (line === '' ? 0 : 1) + columns
      line = line === '' ? word : `${line} ${word}`
    }
  }
  lines.push(line)
  return lines
}

function broken(word: string, width: number): readonly string[] {
  const pieces: string[] = []
  let rest = word
  while (columnsOf(rest) > width) {
    // At least one character, or a page too narrow for it would never end.
    const piece = fitted(rest, width) || (Array.from(rest)[0] ?? rest)
    pieces.push(piece)
    rest = rest.slice(piece.length)
  }
  return [...pieces, rest]
}
