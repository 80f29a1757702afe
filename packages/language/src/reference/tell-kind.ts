import type { Dimension } from '@lockwright/energy'
import { dimensionWords } from '../front-matter/dimension-words.js'
import { parameterDimensions, sourceKinds } from '../front-matter/source-kinds.js'
import type { ParameterName, SourceKind } from '../front-matter.js'
import { parameterMeanings } from './kind-notes.js'

export interface ParameterFact {
  readonly name: string
  readonly required: boolean
  /** Such as `a voltage`; empty for a key that is no quantity: the table of keys tells of it. */
  readonly measures: string
  readonly meaning: string
}

export interface SourceKindFacts {
  readonly stores: string
  readonly relieved: string
  /** Its own level, or how one is written. */
  readonly safeBelow: string
}

const either = (dimensions: readonly Dimension[]): string => dimensions.map((one) => dimensionWords[one]).join(' or ')

function isQuantity(name: string): name is Exclude<ParameterName, 'safe-below'> {
  return Object.hasOwn(parameterDimensions, name)
}

/** What one kind of source takes besides what every source takes, the required first. */
export function parametersOf(kind: SourceKind): readonly ParameterFact[] {
  const { required, optional } = sourceKinds[kind]
  return [...required, ...optional].map((name) => ({
    name,
    required: required.includes(name),
    measures: isQuantity(name) ? either(parameterDimensions[name]) : '',
    meaning: isQuantity(name) ? parameterMeanings[name] : ''
  }))
}

export function sourceKindFacts(kind: SourceKind): SourceKindFacts {
  const { stores, relievable, safeBelow } = sourceKinds[kind]
  return {
    stores: typeof stores === 'boolean' ? (stores ? 'yes' : 'no') : 'as declared',
    relieved: typeof relievable === 'boolean' ? (relievable ? 'yes' : 'no') : 'as declared',
    safeBelow:
      safeBelow.standard ??
      `none; takes ${safeBelow.dimensions.length === 0 ? 'any quantity' : either(safeBelow.dimensions)}`
  }
}
