import { parseQuantity, type Quantity } from '@lockwright/energy'
import type { Content } from '@lockwright/language'
import type { Exit, Input, State } from '@lockwright/machine'

export const span = { line: 1, column: 1, endLine: 1, endColumn: 2 }
const limits = { min: null, max: null, below: null }

type Made = Partial<Record<string, unknown>> & { readonly kind: State['kind']; readonly title: string }

/** A state as the compiler makes it, with what the test leaves out filled in. */
export function made(id: string, state: Made): State {
  return {
    id,
    step: id,
    section: null,
    span,
    intro: [],
    notices: [],
    body: [],
    role: null,
    wear: [],
    minutes: null,
    items: [],
    inputs: [],
    things: [],
    turns: [],
    exits: [],
    ...state
  } as unknown as State
}

export function text(words: string): readonly Content[] {
  return [{ kind: 'paragraph', runs: [{ kind: 'text', text: words }] }]
}

export function list(...items: readonly string[]): readonly Content[] {
  return [{ kind: 'list', ordered: true, start: 1, items: items.map(text) }]
}

export function boxes(...items: readonly string[]): readonly Input[] {
  return items.map((item, index) => ({ kind: 'box', id: `box-${index + 1}`, of: 'item', text: item, source: null }))
}

export function done(to: string): readonly Exit[] {
  return [{ on: 'done', to }] as unknown as readonly Exit[]
}

export function quantity(written: string): Quantity {
  const parsed = parseQuantity(written)
  if (!parsed.ok) throw new Error(parsed.why)
  return parsed.value
}

export function reading(source: string, label: string, unit: string, below: number): unknown {
  return { kind: 'reading', id: `reading-${label}`, label, unit, limits: { ...limits, below }, source }
}
