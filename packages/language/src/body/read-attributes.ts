import type { AttributeSpecification, DirectiveSpecification } from '../directive-specification.js'
import { oneOf, quoted } from '../faults.js'
import { hiddenCharacter } from '../hidden-characters.js'
import type { AttributeToken } from '../markdown/attribute-places.js'
import { nearest } from '../nearest.js'
import type { Place } from '../place.js'
import { type Attribute, Attributes } from './attributes.js'
import type { BodyContext } from './context.js'
import { joinCutValues, withoutCurlyQuotes } from './value-ends.js'

/** Checks the attributes of one directive against its specification, and makes them ready to be read. */
export function readAttributes(
  specification: DirectiveSpecification,
  tokens: readonly AttributeToken[],
  namePlace: Place,
  context: BodyContext
): Attributes {
  const found = new Map<string, Attribute>()
  for (const token of wholeValues(specification, tokens, context)) {
    const place = context.place(token.position)
    const valuePlace = token.valuePosition === undefined ? place : context.place(token.valuePosition)
    const known = knownAttribute(specification, token.name, context)
    if (known === undefined) {
      reportUnknown(specification, token, place, context)
      continue
    }
    const other = found.get(token.name)
    if (other !== undefined) {
      context.faults.add(
        'duplicate-attribute',
        place,
        `${quoted(shown(token))} is written twice.`,
        'Take one of the two out.',
        [{ place: other.place, note: 'Here it is written first.' }]
      )
      continue
    }
    found.set(token.name, {
      specification: known === 'id' || known === 'axis' ? undefined : known,
      value: token.value,
      place,
      valuePlace
    })
    if (token.value.trim() === '' && !(typeof known === 'object' && known.value === 'flag')) {
      context.faults.add(
        'empty-attribute',
        place,
        `${quoted(shown(token))} has no value.`,
        'Write its value behind an equals sign, or take it out.'
      )
    } else if (hiddenCharacter.test(token.value) && !hiddenCharacter.test(written(valuePlace, context))) {
      context.faults.add(
        'control-character',
        valuePlace,
        `The value of ${quoted(token.name)} holds a hidden character.`,
        'Take the character out.'
      )
    }
  }
  for (const attribute of specification.attributes) {
    if (attribute.required && !found.has(attribute.name)) {
      context.faults.add(
        'missing-attribute',
        namePlace,
        `${quoted(specification.name)} has no ${quoted(attribute.name)} (${attribute.meaning}).`,
        `Add ${quoted(`${attribute.name}=...`)} in its braces.`
      )
    }
  }
  if (specification.id === 'required' && !found.has('#')) {
    context.faults.add(
      'missing-attribute',
      namePlace,
      `${quoted(specification.name)} has no name.`,
      `Add a name in its braces: ${quoted(`${specification.name}[...]{#name}`)}.`
    )
  }
  return new Attributes(found, context)
}

/** The tokens as they were meant, where a value ends too early or stands in quotes that are none. */
function wholeValues(
  specification: DirectiveSpecification,
  tokens: readonly AttributeToken[],
  context: BodyContext
): readonly AttributeToken[] {
  if (tokens.every(isWhole)) return tokens.map((token) => withoutCurlyQuotes(token, context))
  const flags = specification.attributes.filter(({ value }) => value === 'flag').map(({ name }) => name)
  const specificationOf = (name: string) => {
    const known = knownAttribute(specification, name, context)
    if (known !== undefined) return typeof known === 'object' ? known : 'other'
    return nearest(name, flags).length > 0 ? 'other' : undefined
  }
  return joinCutValues(
    tokens.map((token) => withoutCurlyQuotes(token, context)),
    specificationOf,
    context
  )
}

function isWhole({ valuePosition }: AttributeToken): boolean {
  return valuePosition !== undefined
}

function written({ start, end }: Place, { source }: BodyContext): string {
  return source.text.slice(start.offset, end.offset)
}

function knownAttribute(
  specification: DirectiveSpecification,
  name: string,
  context: BodyContext
): AttributeSpecification | 'id' | 'axis' | undefined {
  if (name === '#') return specification.id === 'none' ? undefined : 'id'
  if (specification.name === 'only' && context.head.axes.some(({ id }) => id === name)) return 'axis'
  return specification.attributes.find((attribute) => attribute.name === name)
}

function shown({ name, value }: AttributeToken): string {
  return name === '#' || name === '.' ? name + value : name
}

function reportUnknown(
  specification: DirectiveSpecification,
  token: AttributeToken,
  place: Place,
  context: BodyContext
): void {
  const { faults } = context
  if (faults.full) return
  const { name } = specification
  const known = specification.attributes.map((attribute) => attribute.name)
  if (name === 'only') known.push(...context.head.axes.map(({ id }) => id))
  const namePlace =
    token.name === '#' || token.name === '.'
      ? place
      : {
          ...place,
          end: {
            ...place.start,
            column: place.start.column + token.name.length,
            offset: place.start.offset + token.name.length
          }
        }
  if (token.name === '#') {
    faults.add(
      'unknown-attribute',
      place,
      `${quoted(name)} takes no name: nothing can refer to it.`,
      'Take the name out.'
    )
    return
  }
  if (token.name === 'id' && specification.id !== 'none') {
    faults.add(
      'unknown-attribute',
      namePlace,
      `${quoted('id')} is not an attribute of ${quoted(name)}.`,
      `Write the name as ${quoted(`#${token.value}`)}.`
    )
    return
  }
  const otherCase = known.find((other) => other.toLowerCase() === token.name.toLowerCase())
  if (otherCase !== undefined) {
    faults.add(
      'wrong-case',
      namePlace,
      `${quoted(token.name)} is not an attribute of ${quoted(name)}: case matters.`,
      `Write ${quoted(otherCase)}.`
    )
    return
  }
  // Axes that could not be read are not known here.
  if (name === 'only' && context.names.incomplete) return
  const near = nearest(token.name, known)
  const takes = known.length === 0 ? `${quoted(name)} takes none.` : `${quoted(name)} takes ${oneOf(known)}.`
  faults.add(
    'unknown-attribute',
    namePlace,
    `${quoted(shown(token))} is not an attribute of ${quoted(name)}.`,
    near.length > 0 ? `Write ${oneOf(near)}, or take it out.` : `Take it out: ${takes}`
  )
}
