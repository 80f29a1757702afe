import type { Nodes, Root } from 'mdast'
import type { Faults } from '../faults.js'
import type { Scan } from '../scan/scan-source.js'
import type { SourceText } from '../source-text.js'
import { placesOf } from './attribute-places.js'

/**
 * The last net: each line that the scan took for a directive or its fence must have come out of the parser as one.
 * Where the two differ, the parser made prose of it.
 */
export function checkParsedLines(
  root: Root,
  { parts, directiveLines }: Scan,
  source: SourceText,
  faults: Faults
): void {
  if (parts.length === 0) return
  const parsed = new Set<number>()
  for (const node of root.children) collect(node, parsed)
  for (const line of directiveLines) {
    if (parsed.has(line)) continue
    faults.add(
      'broken-directive',
      source.placeOfLine(line),
      'This line looks like a directive or its fence, and Markdown does not read it as one.',
      'Put it at the left edge, with a blank line before it, and look for something unclosed above it.'
    )
  }
}

function collect(node: Nodes, lines: Set<number>): void {
  switch (node.type) {
    case 'leafDirective':
      if (node.position !== undefined) lines.add(node.position.start.line)
      return
    case 'containerDirective':
      for (const { start } of placesOf(node).fences) lines.add(start.line)
      for (const child of node.children) collect(child, lines)
      return
    case 'list':
    case 'listItem':
    case 'blockquote':
      for (const child of node.children) collect(child, lines)
      return
    default:
      return
  }
}
