/** A stretch of running text. `ref` is a `:ref[id]` that was resolved; its text is the label to print. */
export type Run =
  | { readonly kind: 'text' | 'strong' | 'emphasis' | 'code'; readonly text: string }
  | { readonly kind: 'ref'; readonly to: string; readonly text: string }
  | { readonly kind: 'break' }

export type Runs = readonly Run[]

/** Prose as the runners show it. Nothing here is a step. */
export type Content =
  | { readonly kind: 'paragraph'; readonly runs: Runs }
  | {
      readonly kind: 'list'
      readonly ordered: boolean
      readonly start: number
      readonly items: readonly (readonly Content[])[]
    }
  | { readonly kind: 'table'; readonly header: readonly Runs[]; readonly rows: readonly (readonly Runs[])[] }
  | { readonly kind: 'quote'; readonly content: readonly Content[] }
  | { readonly kind: 'code'; readonly text: string }
  | { readonly kind: 'image'; readonly source: string; readonly alternate: string }
  | { readonly kind: 'rule' }

/** The runs as one plain line, for titles, terminals and messages. */
export function plainText(runs: Runs): string {
  return runs.map((run) => (run.kind === 'break' ? ' ' : run.text)).join('')
}
