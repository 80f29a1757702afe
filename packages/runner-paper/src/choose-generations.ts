import type { Machine } from '@lockwright/machine'
import type { Generations } from './print-options.js'

/** What was chosen, or what is wrong with the choice, each fault one sentence. */
export type ChosenGenerations =
  | { readonly ok: true; readonly generations: Generations }
  | { readonly ok: false; readonly faults: readonly string[] }

/** Reads `axis=value` texts, as given to `print --for`, against the generations that the machine knows. */
export function chooseGenerations(machine: Machine, texts: readonly string[]): ChosenGenerations {
  const generations: Record<string, string> = {}
  const faults: string[] = []
  for (const text of texts) {
    const [name = '', value = '', ...rest] = text.split('=')
    const axis = machine.axes.find(({ id }) => id === name)
    if (axis === undefined || rest.length > 0) {
      const known = machine.axes.map(({ id }) => `\`${id}\``).join(', ')
      faults.push(
        `\`${text}\` names no hardware axis of this procedure; ${known === '' ? 'it has none' : `it has ${known}`}.`
      )
    } else if (!axis.values.some(({ id }) => id === value)) {
      faults.push(
        `\`${value}\` is no generation of \`${name}\`; there is ${axis.values.map(({ id }) => `\`${id}\``).join(', ')}.`
      )
    } else if (generations[name] !== undefined && generations[name] !== value) {
      faults.push(`\`${name}\` was chosen twice: a sheet is for one generation, or for all.`)
    } else {
      generations[name] = value
    }
  }
  // The names were just found among the machine's own, so they are its ids.
  return faults.length > 0 ? { ok: false, faults } : { ok: true, generations: generations as Generations }
}
