/** What an attribute's value is; names may be several, separated by spaces, where the word is plural. */
export type AttributeValue =
  | 'points'
  | 'sources'
  | 'restraints'
  | 'equipment'
  | 'parts'
  | 'protection'
  | 'role'
  | 'axis'
  | 'axis-values'
  | 'step'
  | 'sign-offs'
  | 'section'
  | 'time'
  | 'quantity'
  | 'range'
  | 'number'
  | 'text'
  | 'flag'
  | { readonly words: readonly string[] }

export interface AttributeSpecification {
  readonly name: string
  readonly value: AttributeValue
  readonly required: boolean
  readonly meaning: string
}

export type DirectiveGroup = 'requirement' | 'step' | 'choice' | 'branch' | 'notice'

export interface DirectiveSpecification {
  readonly name: string
  readonly group: DirectiveGroup
  /** `:::name`, with a body up to its fence. */
  readonly container: boolean
  /** `::name`, on one line. */
  readonly leaf: boolean
  readonly label: 'required' | 'optional' | 'none'
  /** Whether it takes `#id`. */
  readonly id: 'required' | 'optional' | 'none'
  readonly attributes: readonly AttributeSpecification[]
  /** What directives stand directly in its body; a step's body holds prose alone. */
  readonly holds: 'prose' | 'steps' | readonly string[]
  readonly meaning: string
}

export function required(name: string, value: AttributeValue, meaning: string): AttributeSpecification {
  return { name, value, required: true, meaning }
}

export function optional(name: string, value: AttributeValue, meaning: string): AttributeSpecification {
  return { name, value, required: false, meaning }
}

export type Rest = Partial<Pick<DirectiveSpecification, 'label' | 'container' | 'leaf' | 'holds'>>

export function requirement(
  name: string,
  meaning: string,
  attributes: AttributeSpecification[]
): DirectiveSpecification {
  return {
    name,
    group: 'requirement',
    container: false,
    leaf: true,
    label: 'required',
    id: 'required',
    attributes,
    holds: 'prose',
    meaning
  }
}

const ofEveryStep = [
  optional('role', 'role', 'who must do it'),
  optional('wear', 'protection', 'what they wear'),
  optional('minutes', 'number', 'its usual duration')
]

export function step(
  name: string,
  meaning: string,
  own: AttributeSpecification[],
  rest: Rest = {}
): DirectiveSpecification {
  const names = new Set(own.map((attribute) => attribute.name))
  const attributes = [...own, ...ofEveryStep.filter((attribute) => !names.has(attribute.name))]
  return {
    name,
    group: 'step',
    container: true,
    leaf: true,
    label: 'optional',
    id: 'optional',
    attributes,
    holds: 'prose',
    meaning,
    ...rest
  }
}

export function choice(
  name: string,
  meaning: string,
  attributes: AttributeSpecification[],
  rest: Rest
): DirectiveSpecification {
  return {
    name,
    group: 'choice',
    container: true,
    leaf: false,
    label: 'none',
    id: 'optional',
    attributes,
    holds: 'steps',
    meaning,
    ...rest
  }
}

export function branch(
  name: string,
  meaning: string,
  attributes: AttributeSpecification[],
  rest: Rest = {}
): DirectiveSpecification {
  return {
    name,
    group: 'branch',
    container: true,
    leaf: false,
    label: 'none',
    id: 'none',
    attributes,
    holds: 'steps',
    meaning,
    ...rest
  }
}

export function notice(name: string, meaning: string): DirectiveSpecification {
  return {
    name,
    group: 'notice',
    container: true,
    leaf: false,
    label: 'optional',
    id: 'none',
    attributes: [],
    holds: 'prose',
    meaning
  }
}
