import type { Nodes, Root, RootContent } from 'mdast'
import type { ContainerDirective, LeafDirective } from 'mdast-util-directive'
import { findDirective } from '../directives.js'
import { placesOf } from '../markdown/attribute-places.js'
import type { Names, Sort } from '../names.js'
import type { Place } from '../place.js'
import { slugOf } from '../slug-of.js'

type PlaceOf = (position: NonNullable<Nodes['position']>) => Place

/** Declares what the body names, in the order of the file: sections by their titles, and every `#id`. */
export function declareNames(root: Root, names: Names, placeOf: PlaceOf): void {
  for (const node of root.children) {
    if (node.type === 'heading' && node.position !== undefined) {
      const title = textOf(node).trim()
      const name = slugOf(title)
      if (name !== '') names.declare({ name, sort: 'section', place: placeOf(node.position), label: title })
    } else declareInside(node, names, placeOf)
  }
}

function declareInside(node: RootContent, names: Names, placeOf: PlaceOf): void {
  if (node.type !== 'containerDirective' && node.type !== 'leafDirective') return
  const named = placesOf(node).attributes.find(({ name }) => name === '#')
  if (named !== undefined) {
    const sort = sortOf(node.name)
    if (sort === undefined) names.lose(named.value)
    else names.declare({ name: named.value, sort, place: placeOf(named.position), label: labelOf(node) })
  }
  if (node.type === 'containerDirective') {
    for (const child of node.children) declareInside(child, names, placeOf)
  }
}

function sortOf(directive: string): Sort | undefined {
  const group = findDirective(directive)?.group
  switch (group) {
    case 'requirement':
      return directive === 'tool' || directive === 'part' ? directive : 'wear'
    case 'step':
      return directive === 'signoff' ? 'sign-off' : 'step'
    case 'choice':
      return 'choice'
    case 'branch':
    case 'notice':
    case undefined:
      return undefined
  }
}

const acting = ['at', 'of', 'with', 'restraint', 'hardware', 'for']

/** The label, or what the step does to what: `lock Q1`. */
function labelOf(node: ContainerDirective | LeafDirective): string {
  const first = node.children[0]
  const label =
    node.type === 'leafDirective'
      ? node
      : first?.type === 'paragraph' && first.data?.directiveLabel === true
        ? first
        : undefined
  const text = label === undefined ? '' : textOf(label).replace(/\s+/g, ' ').trim()
  if (text !== '') return text
  const on = placesOf(node).attributes.find(({ name }) => acting.includes(name))
  return on === undefined ? node.name : `${node.name} ${on.value}`
}

/** The plain text of a node, as far as it has any. */
export function textOf(node: Nodes): string {
  if ('value' in node) return node.type === 'html' ? '' : node.value
  if (node.type === 'break') return ' '
  return 'children' in node ? node.children.map(textOf).join('') : ''
}
