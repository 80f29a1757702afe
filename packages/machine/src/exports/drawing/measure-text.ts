const narrow = /[ijl.,:;|'!()[\]{}fIrt/\-·]/
const wide = /[mwMW@%—]/
const broad =
  /[\u1100-\u115f\u2e80-\ua4cf\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe6f\uff00-\uff60\u{1f300}-\u{1faff}\u{20000}-\u{3fffd}]/u
const capital = /\p{Lu}/u

/** About how wide a text is in a common sans-serif face, in the unit of `size`; on the safe side of Helvetica and DejaVu. */
export function widthOf(text: string, size: number): number {
  let width = 0
  for (const character of text) {
    if (broad.test(character)) width += 1
    else if (narrow.test(character)) width += 0.33
    else if (wide.test(character)) width += 0.9
    else if (capital.test(character)) width += 0.7
    else width += 0.56
  }
  return width * size
}

/** No break is made where the author or the caller wrote a no-break space. Lines are no wider than `width`; a word that is wider is broken, and what is too much ends in an ellipsis. */
export function wrapText(text: string, width: number, size: number, most: number): readonly string[] {
  const lines: string[] = []
  let line = ''
  const words = text
    .split(/[ \t\r\n]+/)
    .filter((word) => word !== '')
    .flatMap((word) => pieces(word, width, size))
  for (const word of words) {
    const longer = line === '' ? word : `${line} ${word}`
    if (line !== '' && widthOf(longer, size) > width) {
      lines.push(line)
      line = word
    } else line = longer
  }
  if (line !== '') lines.push(line)
  if (lines.length <= most) return lines
  return [...lines.slice(0, most - 1), shortened(lines[most - 1] ?? '', width, size)]
}

function pieces(word: string, width: number, size: number): readonly string[] {
  const found: string[] = []
  let piece = ''
  for (const character of word) {
    if (piece !== '' && widthOf(piece + character, size) > width) {
      found.push(piece)
      piece = character
    } else piece += character
  }
  return [...found, piece]
}

function shortened(line: string, width: number, size: number): string {
  const characters = [...line]
  while (characters.length > 0 && widthOf(`${characters.join('')} …`, size) > width) characters.pop()
  return `${characters.join('').trimEnd()} …`
}
