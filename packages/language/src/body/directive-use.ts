import type { PhrasingContent, RootContent } from 'mdast'
import type { ContainerDirective, LeafDirective } from 'mdast-util-directive'
import type { DirectiveSpecification } from '../directive-specification.js'
import { directiveNames, findDirective } from '../directives.js'
import { oneOf, quoted } from '../faults.js'
import { placesOf } from '../markdown/attribute-places.js'
import { nearest } from '../nearest.js'
import type { Place } from '../place.js'
import type { Attributes } from './attributes.js'
import type { BodyContext } from './context.js'
import { readAttributes } from './read-attributes.js'

/** A directive that the language knows, as it is used at one place. */
export interface DirectiveUse {
  readonly specification: DirectiveSpecification
  readonly name: string
  /** Its opening line. */
  readonly place: Place
  readonly whole: Place
  readonly namePlace: Place
  readonly label: readonly PhrasingContent[]
  readonly attributes: Attributes
  /** The `#id`, where there is one. */
  readonly id: { readonly text: string; readonly place: Place } | undefined
  readonly children: readonly RootContent[]
}

/** Reads a directive's own line; undefined, with a fault, where the language does not know it. */
export function readDirectiveUse(
  node: ContainerDirective | LeafDirective,
  context: BodyContext
): DirectiveUse | undefined {
  const places = placesOf(node)
  const whole = context.place(node.position)
  const [opening, closing] = places.fences
  const place = opening === undefined ? whole : { ...whole, end: context.place(opening).end }
  const namePlace = context.place(places.name ?? node.position)
  const container = node.type === 'containerDirective'
  if (container && closing === undefined) {
    // The scan finds what is not closed; this is for what it may have read otherwise than the parser.
    context.faults.add(
      'unclosed-fence',
      place,
      `${quoted(`:::${node.name}`)} is not closed.`,
      'Write its fence on a line of its own where it ends.'
    )
  }
  const first = container ? node.children[0] : undefined
  const labelled = first?.type === 'paragraph' && first.data?.directiveLabel === true ? first : undefined
  const children = container ? node.children.slice(labelled === undefined ? 0 : 1) : []
  const label = container ? (labelled?.children ?? []) : node.children

  const specification = findDirective(node.name)
  if (specification === undefined || context.scan.brokenLines.has(place.start.line)) {
    if (specification === undefined) reportUnknown(node.name, namePlace, context)
    return undefined
  }
  const form = container ? 'container' : 'leaf'
  if (!specification[form]) reportForm(specification, namePlace, container, context)
  checkLabel(specification, label, places.label === undefined ? undefined : context.place(places.label), place, context)
  const attributes = readAttributes(specification, places.attributes, namePlace, context)
  return { specification, name: node.name, place, whole, namePlace, label, attributes, id: attributes.id(), children }
}

function reportUnknown(name: string, place: Place, context: BodyContext): void {
  if (context.scan.brokenLines.has(place.start.line)) return
  const lower = findDirective(name.toLowerCase())
  if (lower !== undefined) {
    context.faults.add(
      'wrong-case',
      place,
      `${quoted(name)} is not a directive: directives are written in small letters.`,
      `Write ${quoted(lower.name)}.`
    )
    return
  }
  const near = nearest(name, directiveNames())
  context.faults.add(
    'unknown-directive',
    place,
    `There is no directive ${quoted(name)}.`,
    near.length > 0 ? `Write ${oneOf(near)}.` : 'Write a directive of the language, or take the line out.'
  )
}

function reportForm(
  { name, container }: DirectiveSpecification,
  place: Place,
  isContainer: boolean,
  context: BodyContext
): void {
  context.faults.add(
    'wrong-form',
    place,
    isContainer
      ? `${quoted(name)} takes no body, and here it has one.`
      : `${quoted(name)} takes a body, and here it has none.`,
    isContainer && !container
      ? `Write it on one line, with two colons: ${quoted(`::${name}`)}.`
      : `Write it with three or more colons, and a fence where it ends: ${quoted(`:::${name}`)}.`
  )
}

function checkLabel(
  { name, label }: DirectiveSpecification,
  nodes: readonly PhrasingContent[],
  labelPlace: Place | undefined,
  place: Place,
  { faults }: BodyContext
): void {
  if (labelPlace === undefined) {
    if (label === 'required')
      faults.add(
        'missing-label',
        place,
        `${quoted(name)} has no label.`,
        `Write what it says in brackets: ${quoted(`${name}[...]`)}.`
      )
    return
  }
  if (nodes.length === 0 || nodes.every((node) => node.type === 'text' && node.value.trim() === '')) {
    faults.add(
      'missing-label',
      labelPlace,
      `The label of ${quoted(name)} is empty.`,
      label === 'none' ? 'Take the brackets out.' : 'Write what it says between the brackets.'
    )
  } else if (label === 'none') {
    faults.add(
      'unexpected-label',
      labelPlace,
      `${quoted(name)} takes no label.`,
      'Take the label out, or write it as prose before the directive.'
    )
  }
}
