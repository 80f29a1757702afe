/**
 * Front matter as a tree of texts: nothing is typed yet, so `1.10` stays `1.10`. Offsets are those of the source.
 * Aliases are resolved: such a node has the offsets of the alias and the content of what it stands for.
 */
export type YamlNode = { readonly start: number; readonly end: number } & (
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'list'; readonly items: readonly YamlNode[] }
  | { readonly kind: 'mapping'; readonly entries: readonly YamlEntry[] }
)

export interface YamlEntry {
  readonly key: YamlNode
  /** Undefined where nothing is written behind the colon. */
  readonly value: YamlNode | undefined
}

export type YamlMapping = Extract<YamlNode, { kind: 'mapping' }>
