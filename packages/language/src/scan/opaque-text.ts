import { findDirective } from '../directives.js'
import { type Faults, quoted } from '../faults.js'
import type { SourceText } from '../source-text.js'
import type { FenceStack } from './fence-stack.js'
import type { LineShape } from './line-shape.js'

interface Code {
  readonly kind: 'code'
  readonly line: number
  readonly sign: string
  readonly length: number
  /** Column that its lines must reach where it stands in a list item; it ends with the item. */
  readonly content: number
  readonly quoted: boolean
}

interface Comment {
  readonly kind: 'comment'
  readonly line: number
}

/** Fenced code and comments, in which Markdown sees no directive. The fence of a container around them ends them. */
export class OpaqueText {
  private readonly source: SourceText
  private readonly faults: Faults
  private readonly fences: FenceStack
  private open: Code | Comment | undefined

  constructor(source: SourceText, faults: Faults, fences: FenceStack) {
    this.source = source
    this.faults = faults
    this.fences = fences
  }

  get isOpen(): boolean {
    return this.open !== undefined
  }

  /** Whether a line belongs to what is open. */
  takes(line: number, text: string, shape: LineShape): boolean {
    const { open } = this
    if (open === undefined) return false
    if (open.kind === 'code' && leavesItem(open, shape)) {
      this.open = undefined
      return false
    }
    const trimmed = text.trim()
    if (shape.indent < 4 && /^:{3,}$/.test(trimmed) && this.fences.closes(trimmed.length)) {
      this.reportUnclosed(open, `before the fence on line ${line}`)
      this.open = undefined
      return false
    }
    if (open.kind === 'comment') {
      if (text.includes('-->')) this.open = undefined
      return true
    }
    const rest = text.slice(shape.rest).trimEnd()
    if (rest.length >= open.length && rest === open.sign.repeat(rest.length)) this.open = undefined
    else this.lookForDirective(line, trimmed, open)
    return true
  }

  /** Opens code or a comment where a line begins one. */
  begin(line: number, rest: string, shape: LineShape, itemContent: number | undefined): void {
    const first = rest[0]
    if ((first !== '`' && first !== '~' && first !== '<') || (shape.indent >= 4 && itemContent === undefined)) return
    const fence = /^(`{3,})[^`]*$|^(~{3,})/.exec(rest)
    const run = fence?.[1] ?? fence?.[2]
    if (run !== undefined) {
      const quoted = shape.markers.some(({ kind }) => kind === 'quote')
      this.open = { kind: 'code', line, sign: first, length: run.length, content: itemContent ?? 0, quoted }
    } else if (
      rest.startsWith('<!--') &&
      !rest.includes('-->', 2) &&
      shape.markers.length === 0 &&
      itemContent === undefined
    ) {
      this.open = { kind: 'comment', line }
    }
  }

  /** At the end of the file: the line on which something was left open, which is reported. */
  end(): number | undefined {
    const { open } = this
    if (open === undefined) return undefined
    this.reportUnclosed(open, 'before the end of the file')
    this.open = undefined
    return open.line
  }

  private reportUnclosed(open: Code | Comment, where: string): void {
    const place = this.source.placeOfLine(open.line)
    if (open.kind === 'comment') {
      this.faults.add('unclosed-comment', place, `This comment is not closed ${where}.`, 'Write `-->` where it ends.')
      return
    }
    const fence = `${open.length} ${open.sign === '`' ? 'backticks' : 'tildes'}`
    this.faults.add(
      'unclosed-code',
      place,
      `This code is not closed ${where}.`,
      `Write ${fence} on a line of its own where the code ends.`
    )
  }

  private lookForDirective(line: number, trimmed: string, open: Code): void {
    if (!trimmed.startsWith('::')) return
    const name = /^:{2,}\s?([\w-]+)/.exec(trimmed)?.[1]
    if (name === undefined || findDirective(name.toLowerCase()) === undefined) return
    this.faults.add(
      'directive-in-code',
      this.source.placeOfLine(line),
      `The directive ${quoted(name)} stands inside code that begins on line ${open.line}.`,
      'Close the code before the directive, or take the directive out.'
    )
  }
}

function leavesItem(code: Code, shape: LineShape): boolean {
  return shape.indent < code.content || (code.quoted && shape.markers[0]?.kind !== 'quote')
}
