import type { Paragraph, PhrasingContent, RootContent } from 'mdast'
import type { Content, Runs } from '../content.js'
import { quoted } from '../faults.js'
import type { BodyContext } from './context.js'
import { readComment } from './read-comment.js'
import { newReading, type RunReading, readRuns } from './read-runs.js'

export interface ContentReading {
  readonly content: Content[]
  readonly items: RunReading['items']
}

/** Whether a numbered list may stand inside: in a step it is how to do it, elsewhere it looks like work and is none. */
export type Numbered = 'allowed' | 'hidden'

export function readContents(nodes: readonly RootContent[], numbered: Numbered, context: BodyContext): ContentReading {
  const reading: ContentReading = { content: [], items: [] }
  for (const node of nodes) readContent(node, numbered, context, reading)
  return reading
}

/** Reads one block of prose; directives and headings must have been dealt with, and are reported here. */
export function readContent(node: RootContent, numbered: Numbered, context: BodyContext, into: ContentReading): void {
  switch (node.type) {
    case 'paragraph':
      checkNumbers(node, context)
      readParagraph(node, context, into)
      return
    case 'list':
      if (node.ordered === true && numbered === 'hidden') {
        context.faults.add(
          'hidden-work',
          context.place(node.position),
          'A numbered list stands inside other text here.',
          'Put it at the left edge to make it a step, or use hyphens if it is none.'
        )
      }
      into.content.push({
        kind: 'list',
        ordered: node.ordered === true,
        start: node.start ?? 1,
        items: node.children.map((item) => collect(item.children, numbered, context, into))
      })
      return
    case 'blockquote':
      into.content.push({ kind: 'quote', content: collect(node.children, numbered, context, into) })
      return
    case 'table': {
      const [header, ...rows] = node.children.map((row) =>
        row.children.map((cell) => readLine(cell.children, context, into))
      )
      into.content.push({ kind: 'table', header: header ?? [], rows })
      return
    }
    case 'code':
      into.content.push({ kind: 'code', text: node.value })
      return
    case 'thematicBreak':
      into.content.push({ kind: 'rule' })
      return
    case 'html':
      readComment(node.value, context.place(node.position), context)
      return
    case 'definition':
      context.faults.add(
        'link-definition',
        context.place(node.position),
        `This line defines the link ${quoted(node.label ?? node.identifier)}, which nothing shows.`,
        'Write the address where the link stands: `[text](address)`.'
      )
      return
    case 'heading':
      context.faults.add(
        'heading-in-container',
        context.place(node.position),
        'A heading stands inside a list, a quote or a directive.',
        'Put the heading at the left edge, outside of it.'
      )
      return
    case 'containerDirective':
    case 'leafDirective':
      // The scan keeps directives out of lists and quotes; this is for what it may have read otherwise than the parser.
      context.faults.add(
        'misplaced-directive',
        context.place(node.position),
        `The directive ${quoted(node.name)} stands inside other text.`,
        'Write it at the left edge, on a line of its own.'
      )
      return
    default:
      return
  }
}

function collect(
  nodes: readonly RootContent[],
  numbered: Numbered,
  context: BodyContext,
  into: ContentReading
): readonly Content[] {
  const inner = readContents(nodes, numbered, context)
  into.items.push(...inner.items)
  return inner.content
}

/** A paragraph, with its images behind it as blocks of their own. */
function readParagraph(node: Paragraph, context: BodyContext, into: ContentReading): void {
  const { runs, items, images } = readRuns(node.children, context)
  if (runs.some((run) => run.kind === 'break' || run.text.trim() !== '')) into.content.push({ kind: 'paragraph', runs })
  for (const { source, alternate } of images) into.content.push({ kind: 'image', source, alternate })
  into.items.push(...items)
}

/** One line of running text, such as a label or a cell, where no image can stand. */
export function readLine(
  nodes: readonly PhrasingContent[],
  context: BodyContext,
  into: Pick<ContentReading, 'items'>
): Runs {
  const reading = readRuns(nodes, context, newReading())
  into.items.push(...reading.items)
  for (const { place } of reading.images) {
    context.faults.add(
      'image-place',
      place,
      'An image stands in a label, a title or a table.',
      'Put the image in a paragraph of its own.'
    )
  }
  return reading.runs
}

/** Lines of prose that begin with a number as a list does: Markdown reads them as prose. */
function checkNumbers(node: Paragraph, context: BodyContext): void {
  const { source, faults } = context
  const place = context.place(node.position)
  for (let line = place.start.line; line <= place.end.line; line += 1) {
    const from = line === place.start.line ? place.start.column - 1 : 0
    const text = source.line(line).slice(from)
    const found = /^[ \t>]*(\d+[.)])(?!\d)/.exec(text)
    if (found === null) continue
    const [all, number = ''] = found
    const end = from + all.length
    faults.add(
      'numbered-prose',
      source.placeInLine(line, end - number.length, end),
      `This line begins with ${quoted(number)} but is no step: Markdown reads it as prose.`,
      'Put a blank line before the list and a space behind the number, or word it so that no number begins the line.'
    )
  }
}
