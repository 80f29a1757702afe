import { type DirectiveLine, readDirectiveLine } from '../directive-line.js'
import { findDirective } from '../directives.js'
import { type Faults, quoted } from '../faults.js'
import type { SourceText } from '../source-text.js'
import { Edits, type Part } from './edits.js'
import { closedBy, FenceStack } from './fence-stack.js'
import { LIMITS } from './limits.js'
import { type LineShape, shapeOf } from './line-shape.js'
import { type WrongPlace, wrongPlaceOf } from './misplaced.js'
import { reportOneColon, warnOfCloseHeading } from './near-misses.js'
import { OpaqueText } from './opaque-text.js'
import { OpenLists } from './open-lists.js'
import { ParseCost } from './parse-cost.js'

/** What the lines of a file say before it is parsed. */
export interface Scan {
  /** What the parser gets; empty where a limit forbids parsing. */
  readonly parts: readonly Part[]
  /** Lines that must come out of the parser as the opening line or the fence of a directive. */
  readonly directiveLines: ReadonlySet<number>
  /** Directives whose line is broken: their attributes were not read. */
  readonly brokenLines: ReadonlySet<number>
  /** Names that broken lines seem to declare. */
  readonly lostNames: readonly string[]
}

// The parser passes over its events again and again: short parts cost it less, and a part of its own costs little.
const partLength = 1000
const blank = /^[ \t]*$/
const heading = /^ {0,3}#{1,6}(?:[ \t]|$)/

/** Looks at each line once, with all that Markdown would let pass. `first` is the line behind the front matter. */
export function scanSource(source: SourceText, first: number, faults: Faults): Scan {
  return new Scanner(source, faults).scan(first)
}

class Scanner {
  private readonly source: SourceText
  private readonly faults: Faults
  private readonly edits = new Edits()
  private readonly fences: FenceStack
  private readonly opaque: OpaqueText
  private readonly lists = new OpenLists()
  private readonly cost = new ParseCost()
  private readonly directiveLines = new Set<number>()
  private readonly brokenLines = new Set<number>()
  private readonly lostNames: string[] = []
  private blankBefore = true
  private quoteBefore = false
  /** Directives that stand where none may, whose fences are passed over with them. */
  private passedOver = 0
  /** Lines with one colon too few since the last fence: a fence that closes nothing was meant for one of them. */
  private oneColons = 0
  private tooDeep = false
  private rewound = false

  constructor(source: SourceText, faults: Faults) {
    this.source = source
    this.faults = faults
    this.fences = new FenceStack(source, faults, this.edits)
    this.opaque = new OpaqueText(source, faults, this.fences)
  }

  scan(first: number): Scan {
    const { source } = this
    const cuts = [1]
    let partStart = 0
    for (let line = first; line <= source.lineCount && !this.tooDeep; line += 1) {
      const text = source.line(line)
      const start = source.startOf(line)
      if (start - partStart >= partLength && this.mayCut(text)) {
        this.cost.endPart(start - partStart)
        partStart = start
        cuts.push(line)
      }
      this.readLine(line, text)
      if (line === source.lineCount) line = this.lineAfterEnd(line)
    }
    this.cost.endPart(source.text.length - partStart)
    const readable = !this.tooDeep && this.affordable()
    const behind = source.lineCount + 1
    return {
      parts: readable ? cuts.map((cut, index) => this.edits.part(source, cut, cuts[index + 1] ?? behind)) : [],
      directiveLines: this.directiveLines,
      brokenLines: this.brokenLines,
      lostNames: this.lostNames
    }
  }

  /** Whether the parser reads the same with a new part from here: nothing is open, and no list can go on. */
  private mayCut(text: string): boolean {
    return this.blankBefore && this.fences.depth === 0 && !this.opaque.isOpen && /^[^\s>*+\-\d]/.test(text)
  }

  /** Closes what the file leaves open. Code or a comment without an end is read again as if it had not begun. */
  private lineAfterEnd(line: number): number {
    const open = this.opaque.end()
    if (open !== undefined && !this.rewound) {
      this.rewound = true
      this.edits.replace(open, '')
      return open
    }
    this.fences.leaveAll(this.source.lineCount + 1, 'the file ends')
    return line
  }

  private affordable(): boolean {
    const { blocks, passes } = this.cost
    if (blocks <= LIMITS.blocks && passes <= LIMITS.passes) return true
    const most = LIMITS.blocks.toLocaleString('en')
    this.faults.add(
      'costly-text',
      this.source.place(0, this.source.text.length),
      blocks > LIMITS.blocks
        ? `The file has more than ${most} paragraphs, list items, rows and directives.`
        : 'The file holds so many lists, quotes, brackets or signs in one stretch that it cannot be parsed in a sensible time.',
      blocks > LIMITS.blocks
        ? 'Split it into several procedures.'
        : 'Break it up: shorter paragraphs, and headings or steps between the lists.'
    )
    return false
  }

  private readLine(line: number, text: string): void {
    if (blank.test(text)) {
      this.cost.endParagraph()
      this.blankBefore = true
      this.quoteBefore = false
      return
    }
    const shape = shapeOf(text)
    if (!this.opaque.takes(line, text, shape)) {
      this.cost.addLine(text)
      this.readFlow(line, text, shape)
    }
    this.blankBefore = false
  }

  private readFlow(line: number, text: string, shape: LineShape): void {
    const directive = text.startsWith('::', shape.rest)
    const title = text[shape.first] === '#' && heading.test(text)
    const underline = !this.blankBefore && /^[ \t]*(?:=+|-+)[ \t]*$/.test(text)
    let quotes = 0
    for (const { kind } of shape.markers) quotes += kind === 'quote' ? 1 : 0
    const begun = this.lists.follow(shape, !this.blankBefore && !directive && !title)
    this.cost.addConstructs(begun + (this.quoteBefore ? 0 : quotes) + (underline ? 2 : 0))
    const block = this.blankBefore || directive || title || underline || /[|`~<]/.test(text[shape.rest] ?? '')
    this.cost.addBlocks(shape.markers.length > 0 ? shape.markers.length : block ? 1 : 0)
    this.quoteBefore = quotes > 0

    if (this.fences.depth + this.lists.depth + quotes > LIMITS.depth) this.reportDepth(line)
    else if (directive) this.readDirective(line, text, shape)
    else if (title) this.readHeading(line)
    else {
      const rest = text.slice(shape.rest)
      if (shape.markers.length === 0) {
        if (rest.startsWith(':')) this.readOneColon(line, text)
        else if (rest.startsWith('#')) warnOfCloseHeading(line, this.source, this.faults)
      }
      if (rest.includes('::') && rest.includes('|')) this.readTableRow(line, text)
      this.opaque.begin(line, rest, shape, this.lists.content)
    }
  }

  private reportDepth(line: number): void {
    this.tooDeep = true
    this.faults.add(
      'too-deep',
      this.source.placeOfLine(line),
      `Here directives, lists and quotes stand more than ${LIMITS.depth} deep inside one another.`,
      'Close what is not needed around it, or move the steps to a section of their own.'
    )
  }

  private readHeading(line: number): void {
    // Where all that is open is closed below, the heading stands inside; else a fence is missing.
    if (this.fences.depth === 0 || this.closedLater(line, 1)) return
    this.fences.leaveAll(line, `a heading follows on line ${line}`)
  }

  /** Whether, before the next heading, so much is closed that less than `depth` stays open. */
  private closedLater(line: number, depth: number): boolean {
    const sizes = [...this.fences.sizes]
    for (let next = line + 1; next <= this.source.lineCount; next += 1) {
      const text = this.source.line(next)
      if (heading.test(text)) return false
      const indent = /^ {0,3}(?=::)/.exec(text)?.[0].length
      if (indent === undefined) continue
      const found = readDirectiveLine(text, indent)
      if (found.kind === 'opening') sizes.push(found.colons)
      if (found.kind !== 'fence') continue
      const index = closedBy(sizes, found.colons)
      if (index !== undefined) sizes.length = index
      if (sizes.length < depth) return true
    }
    return false
  }

  private readOneColon(line: number, text: string): void {
    const meant = reportOneColon(line, this.source, this.faults)
    if (meant === undefined) return
    this.loseNames(text)
    this.edits.replace(line, '')
    if (meant.container) this.oneColons += 1
  }

  private readTableRow(line: number, text: string): void {
    for (const cell of text.matchAll(/\|\s*(:{2,}([a-z][\w-]*))/gi)) {
      const [all, written = '', name = ''] = cell
      if (findDirective(name.toLowerCase()) === undefined) continue
      const end = cell.index + all.length
      this.faults.add(
        'directive-in-table',
        this.source.placeInLine(line, end - written.length, end),
        `The directive ${quoted(name)} stands in a table.`,
        'Write the directive on a line of its own, outside the table.'
      )
    }
  }

  private readDirective(line: number, text: string, shape: LineShape): void {
    const found = readDirectiveLine(text, shape.rest)
    const wrongPlace = wrongPlaceOf(shape, this.lists.depth > 0)
    if (wrongPlace !== undefined) {
      this.passOver(line, text, shape, found, wrongPlace)
      return
    }
    switch (found.kind) {
      case 'fence':
        if (this.oneColons > 0 && !this.fences.closes(found.colons)) {
          this.oneColons -= 1
          this.edits.replace(line, '')
          return
        }
        if (this.fences.fence(line, found.colons, () => this.closedLater(line, this.fences.depth))) {
          this.directiveLines.add(line)
        }
        return
      case 'opening':
        this.directiveLines.add(line)
        this.fences.enter(line, found.name, found.colons)
        if (this.fences.depth > LIMITS.depth) this.reportDepth(line)
        return
      case 'leaf':
        this.directiveLines.add(line)
        this.fences.hold(line, found.name)
        return
      case 'broken':
        this.readBroken(line, text, shape, found)
        return
    }
  }

  private readBroken(
    line: number,
    text: string,
    shape: LineShape,
    found: Extract<DirectiveLine, { kind: 'broken' }>
  ): void {
    this.faults.add('broken-directive', this.source.placeInLine(line, found.from, found.to), found.what, found.mend)
    this.loseNames(text)
    this.brokenLines.add(line)
    const name = found.name ?? 'unknown'
    const container = found.colons > 2 && (findDirective(name)?.container ?? true)
    this.edits.replace(line, container ? text.slice(0, shape.rest) + ':'.repeat(found.colons) + name : '')
    if (!container) return
    this.fences.enter(line, name, found.colons)
    if (this.fences.depth > LIMITS.depth) this.reportDepth(line)
  }

  /** A directive where Markdown or the language has no place for one: it is said, and kept from the parser. */
  private passOver(line: number, text: string, shape: LineShape, found: DirectiveLine, place: WrongPlace): void {
    this.edits.replace(line, shape.markers.length > 0 ? text.slice(0, shape.rest) : '')
    if (found.kind === 'fence' && this.passedOver > 0) {
      this.passedOver -= 1
      return
    }
    if (found.kind !== 'fence' && found.colons > 2) this.passedOver += 1
    this.loseNames(text)
    const what = found.kind === 'fence' ? 'A fence' : `The directive ${quoted(found.name ?? text.trim())}`
    const where = this.source.placeInLine(line, shape.rest, text.trimEnd().length)
    this.faults.add(place.id, where, `${what} stands ${place.where}.`, place.mend)
  }

  private loseNames(text: string): void {
    for (const [, name = ''] of text.matchAll(/#([\p{L}\p{N}_+-]+)/gu)) this.lostNames.push(name)
  }
}
