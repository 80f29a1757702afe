import { canHold } from '../directives.js'
import { type Faults, quoted } from '../faults.js'
import type { SourceText } from '../source-text.js'
import type { Edits } from './edits.js'

interface Open {
  readonly line: number
  readonly name: string
  readonly colons: number
  /** Colons that it should have had to hold what it holds. */
  needed: number
  /** Its fence was already found wanting. */
  faulty: boolean
  /** The first line inside it with a directive that it cannot hold: where it is not closed, it was meant to end there. */
  firstMisfit?: number
}

/**
 * The containers that are open at a line, as their author meant them. Faults name both lines, and the text that the
 * parser gets is mended so that it sees the same containers.
 */
export class FenceStack {
  private readonly source: SourceText
  private readonly faults: Faults
  private readonly edits: Edits
  private open: Open[] = []

  constructor(source: SourceText, faults: Faults, edits: Edits) {
    this.source = source
    this.faults = faults
    this.edits = edits
  }

  get depth(): number {
    return this.open.length
  }

  get sizes(): readonly number[] {
    return this.open.map(({ colons }) => colons)
  }

  /** Whether a fence of so many colons would close anything. */
  closes(colons: number): boolean {
    return this.open.some((container) => container.colons <= colons)
  }

  enter(line: number, name: string, colons: number): void {
    for (;;) {
      const top = this.open.at(-1)
      if (top === undefined || colons < top.colons) break
      if (canHold(top.name, name)) {
        this.reportShort(top, line, name)
        break
      }
      this.leaveUnclosed(top, line, `${quoted(`:::${name}`)} opens on line ${line}`)
      this.open.pop()
    }
    this.hold(line, name)
    this.open.push({ line, name, colons, needed: colons, faulty: false })
  }

  /** Notes a directive that stands directly inside what is open. */
  hold(line: number, name: string): void {
    const top = this.open.at(-1)
    if (top !== undefined && !canHold(top.name, name)) top.firstMisfit ??= line
  }

  /**
   * Takes a fence; false, with a fault, where it closes nothing. One that is too short is taken for the fence of the
   * innermost container where no other closes that: `closesLater` looks ahead.
   */
  fence(line: number, colons: number, closesLater: () => boolean): boolean {
    const index = closedBy(this.sizes, colons)
    if (index === undefined) {
      const top = this.open.at(-1)
      const again = top?.faulty === true
      this.reportLost(line, colons)
      if (top === undefined || again || closesLater()) this.edits.replace(line, '')
      else {
        this.open.pop()
        this.edits.lengthen(line, this.source.line(line), colons, top.needed)
        this.settle(top, undefined)
      }
      return false
    }
    for (const inner of this.open.splice(index + 1).reverse()) {
      this.leaveUnclosed(inner, line, `the fence on line ${line} closes what is around it`)
    }
    const closed = this.open.pop()
    if (closed !== undefined) this.settle(closed, line)
    return true
  }

  /** Closes everything at a line that a container cannot reach over: a heading, or the end of the file. */
  leaveAll(line: number, because: string): void {
    for (const open of this.open.splice(0).reverse()) this.leaveUnclosed(open, line, because)
  }

  private leaveUnclosed(open: Open, line: number, because: string): void {
    if (!open.faulty) {
      const atEnd = line > this.source.lineCount
      const place = this.source.placeOfLine(Math.min(line, this.source.lineCount))
      this.faults.add(
        'unclosed-fence',
        this.source.placeOfLine(open.line),
        `${quoted(':'.repeat(open.colons) + open.name)} is not closed: ${because}.`,
        `Write a fence of ${open.colons} colons on a line of its own where it ends.`,
        atEnd ? [] : [{ place, note: `It would have to be closed before line ${line}.` }]
      )
      open.faulty = true
    }
    this.edits.insertBefore(open.firstMisfit ?? line, ':'.repeat(open.needed))
    this.settle(open, undefined)
  }

  private settle(open: Open, closingLine: number | undefined): void {
    if (open.needed > open.colons) {
      for (const line of closingLine === undefined ? [open.line] : [open.line, closingLine]) {
        this.edits.lengthen(line, this.source.line(line), open.colons, open.needed)
      }
    }
    const parent = this.open.at(-1)
    if (parent !== undefined) parent.needed = Math.max(parent.needed, open.needed + 1)
  }

  private reportShort(outer: Open, line: number, name: string): void {
    outer.needed = Math.max(outer.needed, outer.colons + 1)
    if (outer.faulty) return
    outer.faulty = true
    const text = this.source.line(outer.line)
    const from = text.indexOf(':')
    this.faults.add(
      'short-fence',
      this.source.placeInLine(outer.line, from, from + outer.colons),
      `The fence of ${quoted(':'.repeat(outer.colons) + outer.name)} on line ${outer.line} is too short to hold ${quoted(`:::${name}`)} on line ${line}.`,
      'Give the outer directive more colons than anything it holds, in its opening and its closing fence.',
      [{ place: this.source.placeOfLine(line), note: 'This directive stands inside it.' }]
    )
  }

  private reportLost(line: number, colons: number): void {
    const top = this.open.at(-1)
    if (top === undefined) {
      this.faults.add(
        'stray-fence',
        this.source.placeOfLine(line),
        'This fence closes nothing.',
        'Take the fence out, or write the directive that it should close.'
      )
      return
    }
    this.faults.add(
      'short-fence',
      this.source.placeOfLine(line),
      `This fence of ${colons} colons is too short to close ${quoted(':'.repeat(top.colons) + top.name)} on line ${top.line}.`,
      `Write as many colons as the directive has that it closes, ${top.colons} here, or take the fence out.`,
      [{ place: this.source.placeOfLine(top.line), note: 'This directive is open here.' }]
    )
    top.faulty = true
  }
}

/** Which of the open containers a fence closes: the innermost with as many colons, else as the parser takes it. */
export function closedBy(sizes: readonly number[], colons: number): number | undefined {
  const equal = sizes.lastIndexOf(colons)
  if (equal >= 0) return equal
  const index = sizes.findIndex((size) => size <= colons)
  return index < 0 ? undefined : index
}
