import type { Place, Point } from './place.js'

/**
 * One source file as text, with its lines. Offsets are UTF-16 code units behind a byte-order mark, if there was one;
 * a line ends with LF, CR LF or CR, as in CommonMark.
 */
export class SourceText {
  readonly file: string
  readonly text: string
  /** Offset of the first character of each line. */
  private readonly starts: readonly number[]
  /** Offset behind the last character of each line, before its line ending. */
  private readonly ends: readonly number[]

  constructor(file: string, text: string) {
    const starts = [0]
    const ends: number[] = []
    for (let offset = 0; offset < text.length; offset += 1) {
      const code = text.charCodeAt(offset)
      if (code !== 10 && code !== 13) continue
      ends.push(offset)
      if (code === 13 && text.charCodeAt(offset + 1) === 10) offset += 1
      starts.push(offset + 1)
    }
    ends.push(text.length)
    this.file = file
    this.text = text
    this.starts = starts
    this.ends = ends
  }

  get lineCount(): number {
    return this.starts.length
  }

  /** Offset of the first character of a line; lines count from 1. */
  startOf(line: number): number {
    return this.starts[line - 1] ?? this.text.length
  }

  /** Offset behind the last character of a line. */
  endOf(line: number): number {
    return this.ends[line - 1] ?? this.text.length
  }

  /** A line without its line ending; lines count from 1. */
  line(line: number): string {
    return this.text.slice(this.startOf(line), this.endOf(line))
  }

  point(offset: number): Point {
    const inside = Math.max(0, Math.min(offset, this.text.length))
    let low = 0
    let high = this.starts.length - 1
    while (low < high) {
      const middle = (low + high + 1) >> 1
      if (this.startOf(middle + 1) <= inside) low = middle
      else high = middle - 1
    }
    return { line: low + 1, column: inside - this.startOf(low + 1) + 1, offset: inside }
  }

  /** The point at a column of a line, moved back to the line's end where the line is shorter. */
  pointAt(line: number, column: number): Point {
    const offset = Math.min(this.startOf(line) + column - 1, this.endOf(line))
    return { line, column: offset - this.startOf(line) + 1, offset }
  }

  place(start: number, end: number): Place {
    return { file: this.file, start: this.point(start), end: this.point(Math.max(start, end)) }
  }

  /** A line from its first to its last visible character. */
  placeOfLine(line: number): Place {
    const text = this.line(line)
    const indent = text.length - text.trimStart().length
    return this.placeInLine(line, indent, text.trimEnd().length)
  }

  /** A stretch of one line, from one index into it to another. */
  placeInLine(line: number, from: number, to: number): Place {
    return {
      file: this.file,
      start: this.pointAt(line, from + 1),
      end: this.pointAt(line, Math.max(from, to) + 1)
    }
  }
}
