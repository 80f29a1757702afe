import { DIRECTIVES, type DirectiveSpecification, type RestraintKind, type SourceKind } from '@lockwright/language'
import {
  type FaultId,
  type FrontMatterKey,
  faultDangers,
  frontMatterKeys,
  parametersOf,
  restraintKinds,
  sourceKindNames
} from '@lockwright/language/reference'
import { type Obligation, obligations } from '@lockwright/proof'

/** Something that bears a name; several things may bear one name, such as the key and the directive `only`. */
export type Answer =
  | { readonly group: 'obligation'; readonly obligation: Obligation }
  | { readonly group: 'directive'; readonly directive: DirectiveSpecification }
  | { readonly group: 'energy kind'; readonly kind: SourceKind }
  | { readonly group: 'restraint kind'; readonly kind: RestraintKind }
  | { readonly group: 'key'; readonly entries: readonly FrontMatterKey[] }
  | { readonly group: 'parameter'; readonly name: string; readonly kinds: readonly SourceKind[] }
  | { readonly group: 'finding'; readonly id: FaultId }

/** Names by group, each in the order in which its group is told. */
export const explained = {
  obligations: obligations.map(({ id }) => id),
  directives: DIRECTIVES.map(({ name }) => name),
  'energy kinds': sourceKindNames,
  'restraint kinds': restraintKinds,
  'keys of the front matter': [...new Set(frontMatterKeys.map(({ key }) => key))],
  'parameters of energy kinds': [...new Set(sourceKindNames.flatMap((kind) => quantitiesOf(kind)))],
  'findings about the text': Object.keys(faultDangers)
} as const satisfies Readonly<Record<string, readonly string[]>>

function quantitiesOf(kind: SourceKind): readonly string[] {
  return [...parametersOf(kind).flatMap(({ name, measures }) => (measures === '' ? [] : [name])), 'safe-below']
}

/** Everything that bears the name; empty where nothing does. */
export function answersTo(name: string): readonly Answer[] {
  const entries = frontMatterKeys.filter(({ key }) => key === name)
  const kinds = sourceKindNames.filter((kind) => quantitiesOf(kind).includes(name))
  return [
    ...obligations.filter(({ id }) => id === name).map((obligation): Answer => ({ group: 'obligation', obligation })),
    ...DIRECTIVES.filter((one) => one.name === name).map((directive): Answer => ({ group: 'directive', directive })),
    ...sourceKindNames.filter((one) => one === name).map((kind): Answer => ({ group: 'energy kind', kind })),
    ...restraintKinds.filter((one) => one === name).map((kind): Answer => ({ group: 'restraint kind', kind })),
    ...(entries.length === 0 ? [] : [{ group: 'key', entries } as const]),
    ...(kinds.length === 0 ? [] : [{ group: 'parameter', name, kinds } as const]),
    ...(isFault(name) ? [{ group: 'finding', id: name } as const] : [])
  ]
}

function isFault(name: string): name is FaultId {
  return Object.hasOwn(faultDangers, name)
}
