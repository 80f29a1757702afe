import type { AttributeValue, DirectiveSpecification } from '../directive-specification.js'

const words: Readonly<Record<Exclude<AttributeValue, object>, string>> = {
  points: 'devices',
  sources: 'sources',
  restraints: 'restraints',
  equipment: 'tools or parts',
  parts: 'parts',
  protection: 'protective equipment',
  role: 'a role',
  axis: 'an axis',
  'axis-values': 'generations',
  step: 'a named step',
  'sign-offs': 'sign-offs',
  section: 'a section',
  time: 'a time, `"5 min"`',
  quantity: 'a quantity, `"1000 V"`',
  range: 'a range, `"0 to 10 bar"`',
  number: 'a number',
  text: 'text',
  flag: 'no value'
}

/** What an attribute takes, in a few words. */
export function valueWords(value: AttributeValue): string {
  return typeof value === 'object' ? value.words.map((word) => `\`${word}\``).join(', ') : words[value]
}

/** The forms in which a directive may be written, with its label and name. */
export function formsOf(directive: DirectiveSpecification): readonly string[] {
  const label = directive.label === 'required' ? '[label]' : ''
  const id = directive.id === 'required' ? '#id' : ''
  const wanted = directive.attributes.filter(({ required }) => required).map(({ name }) => `${name}=...`)
  // The one directive whose attribute is named by the author: an axis of the front matter.
  const axis = directive.name === 'only' ? 'AXIS=...' : ''
  const inside = [id, axis, ...wanted].filter((part) => part !== '').join(' ')
  const rest = `${directive.name}${label}${inside === '' ? '' : `{${inside}}`}`
  return [...(directive.container ? [`:::${rest}`] : []), ...(directive.leaf ? [`::${rest}`] : [])]
}
