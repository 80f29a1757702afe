import { curlyQuote, mendCurly } from '../directive-line.js'
import type { AttributeSpecification, AttributeValue } from '../directive-specification.js'
import { quoted } from '../faults.js'
import type { AttributeToken } from '../markdown/attribute-places.js'
import type { BodyContext } from './context.js'

const curlyEnds = new RegExp(`^${curlyQuote.source}+|${curlyQuote.source}+$`, 'g')
const severalNames: readonly AttributeValue[] = [
  'points',
  'sources',
  'restraints',
  'equipment',
  'parts',
  'protection',
  'axis-values',
  'sign-offs'
]

/** A value without the curly quotes around it, which are reported; inside plain quotes they are part of the text. */
export function withoutCurlyQuotes(token: AttributeToken, context: BodyContext): AttributeToken {
  if (!curlyQuote.test(token.value[0] ?? '') || !isPlainValue(token, context)) return token
  const value = token.value.replace(curlyEnds, '')
  context.faults.add(
    'bad-value',
    context.place(token.valuePosition),
    `The value of ${quoted(token.name)} stands in curly quotes, which are no quotes here.`,
    mendCurly(token.name, value)
  )
  return { ...token, value }
}

/**
 * The tokens with each value that ends at a space joined to the words behind it, which is reported: `wait=30 s` is
 * read as an attribute `wait` and an attribute `s`. A word that `specificationOf` knows is an attribute of its own.
 */
export function joinCutValues(
  tokens: readonly AttributeToken[],
  specificationOf: (name: string) => AttributeSpecification | 'other' | undefined,
  context: BodyContext
): readonly AttributeToken[] {
  const joined: AttributeToken[] = []
  for (let index = 0; index < tokens.length; index += 1) {
    const token = tokens[index] as AttributeToken
    let last = token
    const specification = specificationOf(token.name)
    if (typeof specification === 'object' && specification.value !== 'flag' && isPlainValue(token, context)) {
      for (let next = tokens[index + 1]; next !== undefined; next = tokens[index + 1]) {
        if (!isWord(next) || specificationOf(next.name) !== undefined) break
        last = next
        index += 1
      }
    }
    joined.push(last === token ? token : join(token, last, specification as AttributeSpecification, context))
  }
  return joined
}

function join(
  token: AttributeToken,
  last: AttributeToken,
  { value: sort }: AttributeSpecification,
  context: BodyContext
): AttributeToken {
  const { start } = token.valuePosition ?? token.position
  const { end } = last.position
  const written = context.source.text.slice(start.offset, end.offset).replace(/\s+/g, ' ')
  const value = severalNames.includes(sort) ? written.replaceAll(',', '') : written
  context.faults.add(
    'unknown-attribute',
    context.place({ start: token.position.start, end }),
    `The value of ${quoted(token.name)} ends at the space: it is ${quoted(token.value)}, and ${quoted(written.slice(token.value.length).trim())} would be left out.`,
    `Put the whole value in plain double quotes: ${quoted(`${token.name}="${value}"`)}.`
  )
  return {
    name: token.name,
    value,
    position: { start: token.position.start, end },
    valuePosition: { start, end }
  }
}

function isWord({ name, value, valuePosition }: AttributeToken): boolean {
  return name !== '#' && name !== '.' && value === '' && valuePosition === undefined
}

/** Whether a value is written, and without plain quotes around it. */
function isPlainValue({ name, value, valuePosition }: AttributeToken, context: BodyContext): boolean {
  const offset = valuePosition?.start.offset
  if (name === '#' || name === '.' || value === '' || offset === undefined) return false
  const before = context.source.text[offset - 1]
  return before !== '"' && before !== "'"
}
