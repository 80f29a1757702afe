import type { Position } from 'unist'
import type { SourceText } from '../source-text.js'

/** A stretch of whole lines that the Markdown parser gets by itself. */
export interface Part {
  readonly text: string
  /** Moves a position in this part's text to where it stands in the source. */
  readonly relocate: ((position: Position) => void) | undefined
}

/**
 * Small mends of the text that only the parser sees, so that one broken fence does not hide every other fault of the
 * file. Each goes with a diagnostic, and no procedure comes of a file that has one.
 */
export class Edits {
  private readonly lines = new Map<number, string>()
  private readonly shifts = new Map<number, number>()
  private readonly inserted = new Map<number, string[]>()

  replace(line: number, text: string): void {
    this.lines.set(line, text)
    this.shifts.delete(line)
  }

  /** Writes a longer fence where a line has one. */
  lengthen(line: number, original: string, from: number, to: number): void {
    const current = this.lines.get(line) ?? original
    this.lines.set(line, current.replace(/:+/, ':'.repeat(to)))
    this.shifts.set(line, to - from)
  }

  insertBefore(line: number, text: string): void {
    const list = this.inserted.get(line) ?? []
    list.push(text)
    this.inserted.set(line, list)
  }

  get empty(): boolean {
    return this.lines.size === 0 && this.inserted.size === 0
  }

  /** The lines from `first` up to and without `behind`, as the parser is to see them. */
  part(source: SourceText, first: number, behind: number): Part {
    if (this.empty) {
      const start = source.startOf(first)
      const text = source.text.slice(start, behind > source.lineCount ? undefined : source.startOf(behind))
      return { text, relocate: first === 1 ? undefined : (position) => moveDown(position, first - 1, start) }
    }
    const texts: string[] = []
    const origins: number[] = []
    for (let line = first; line <= behind; line += 1) {
      for (const text of line === behind && behind <= source.lineCount ? [] : (this.inserted.get(line) ?? [])) {
        texts.push(text)
        origins.push(line)
      }
      if (line === behind) break
      texts.push(this.lines.get(line) ?? source.line(line))
      origins.push(line)
    }
    const relocatePoint = (point: Position['start']): void => {
      const line = Math.min(origins[point.line - 1] ?? source.lineCount, source.lineCount)
      const shift = this.shifts.get(line) ?? 0
      Object.assign(point, source.pointAt(line, Math.max(1, point.column - shift)))
    }
    return {
      text: texts.join('\n'),
      relocate: ({ start, end }) => {
        relocatePoint(start)
        relocatePoint(end)
      }
    }
  }
}

function moveDown({ start, end }: Position, lines: number, offset: number): void {
  for (const point of [start, end]) {
    point.line += lines
    point.offset = (point.offset ?? 0) + offset
  }
}
