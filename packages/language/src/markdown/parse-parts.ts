import type { Nodes, Root, RootContent } from 'mdast'
import type { Position } from 'unist'
import type { Part } from '../scan/edits.js'
import { parseMarkdown } from './markdown-parser.js'

/** Parses each part by itself and joins the trees; all places are those of the whole source. */
export function parseParts(parts: readonly Part[]): Root {
  const children: RootContent[] = []
  for (const { text, relocate } of parts) {
    const root = parseMarkdown(text)
    if (relocate !== undefined) relocateAll(root.children, relocate)
    for (const child of root.children) children.push(child)
  }
  return { type: 'root', children }
}

function relocateAll(nodes: readonly Nodes[], relocate: (position: Position) => void): void {
  for (const node of nodes) {
    if (node.position !== undefined) relocate(node.position)
    if (node.type === 'containerDirective' || node.type === 'leafDirective') {
      const { attributes, name, label, fences } = node.data?.places ?? { attributes: [], fences: [] }
      for (const { position, valuePosition } of attributes) {
        relocate(position)
        if (valuePosition !== undefined) relocate(valuePosition)
      }
      for (const position of [name, label, ...fences]) {
        if (position !== undefined) relocate(position)
      }
    }
    if ('children' in node) relocateAll(node.children, relocate)
  }
}
