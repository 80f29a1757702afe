import { measuresOf } from '@lockwright/proof'
import type { Card, FormToRead } from './form-to-read.js'

/**
 * With which instrument each reading of a step was taken: where the step has room for several, the one whose kind fits
 * what was read. Undefined where none is filled in.
 */
export function instrumentsOnForm(
  { filled, machine }: FormToRead,
  { fields, state }: Card
): string | Readonly<Record<string, string>> | undefined {
  const blanks = fields.flatMap(({ input, kind, name }) => {
    const item = machine.items.find(({ id }) => input === `instrument-${id}`)
    const value = filled.get(name)
    return kind === 'instrument'
      ? [{ measures: item?.measures ?? null, number: typeof value === 'string' ? value : null }]
      : []
  })
  const numbers = blanks.flatMap(({ number }) => number ?? [])
  if (numbers.length === 0) return undefined
  if (blanks.length === 1) return numbers[0]
  const named = state.inputs.flatMap((input): readonly (readonly [string, string])[] => {
    if (input.kind !== 'reading') return []
    const source = machine.sources.find(({ id }) => id === input.source)
    const wanted = source === undefined ? null : measuresOf(source.kind)
    const fitting = blanks.filter(({ measures }) => wanted === null || measures === null || wanted.includes(measures))
    const own = (fitting.length === 0 ? blanks : fitting).flatMap(({ number }) => number ?? [])
    return own.length === 0 ? [] : [[input.id, own.join(', ')]]
  })
  return named.length === 0 ? numbers.join(', ') : Object.fromEntries(named)
}
