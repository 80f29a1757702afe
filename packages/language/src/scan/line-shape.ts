/** What a line begins with: its indent, then the markers of quotes and list items, then its text. */
export interface LineShape {
  /** Columns before the first visible character; a tab reaches to the next multiple of four. */
  readonly indent: number
  /** Index of the first visible character, or the length of a blank line. */
  readonly first: number
  /** The markers, from the outermost in. */
  readonly markers: readonly Marker[]
  /** Index of the text behind the markers. */
  readonly rest: number
}

export interface Marker {
  readonly kind: 'quote' | 'list'
  /** The sign that tells one list from the next: `-`, `*`, `+`, `.` or `)`. */
  readonly sign: string
  /** Column at which it stands. */
  readonly indent: number
  /** Column at which what it holds begins. */
  readonly content: number
}

const none: readonly Marker[] = []
const marker = /(>)|([-*+])(?=[ \t]|$)|\d{1,9}([.)])(?=[ \t]|$)/y
const rule = /^[ \t]*([-*_])(?:[ \t]*\1){2,}[ \t]*$/
// Enough to see that it is too deep; the rest of such a line does not matter.
const mostMarkers = 64

export function shapeOf(line: string): LineShape {
  let index = 0
  let column = 0
  const skipBlanks = (): void => {
    for (; index < line.length; index += 1) {
      const code = line.charCodeAt(index)
      if (code === 32) column += 1
      else if (code === 9) column += 4 - (column % 4)
      else break
    }
  }
  skipBlanks()
  if (!mayBeMarker(line.charCodeAt(index)) || rule.test(line)) {
    return { indent: column, first: index, markers: none, rest: index }
  }
  const shape = { indent: column, first: index }

  const markers: Marker[] = []
  while (markers.length < mostMarkers) {
    marker.lastIndex = index
    const found = marker.exec(line)
    if (found === null) break
    const indent = column
    index += found[0].length
    column += found[0].length
    const behind = column
    skipBlanks()
    // Five or more columns behind a list marker are code that begins one column behind it.
    const content = column - behind > 4 || index >= line.length ? behind + 1 : column
    markers.push(
      found[1] === undefined
        ? { kind: 'list', sign: found[2] ?? found[3] ?? '', indent, content }
        : { kind: 'quote', sign: '>', indent, content }
    )
  }
  return { ...shape, markers, rest: index }
}

/** `*`, `+`, `-`, `>` and the digits. */
function mayBeMarker(code: number): boolean {
  return code === 42 || code === 43 || code === 45 || code === 62 || (code >= 48 && code <= 57)
}
