import { parseProcedure } from '@lockwright/language'
import { compile } from '@lockwright/machine/lower'
import { prove, type Verdict } from '@lockwright/proof'
import { expect, it } from 'vitest'

// A published order of steps, written as a procedure, is accepted; each swap of two neighbouring steps is accepted or
// refused as the regulation has it.

export interface Step {
  readonly name: string
  readonly text: string
}

/** Two neighbouring steps, and what becomes of the procedure when they change places. */
export interface Swap {
  readonly first: string
  readonly next: string
  /** The obligation that fails first; null where the swap is allowed. */
  readonly fails: string | null
  readonly because: string
}

export function step(name: string, text: string): Step {
  return { name, text }
}

export function verdictOf(head: string, steps: readonly Step[]): Verdict {
  const text = `${head.trim()}\n\n# All of it\n\n${steps.map((one) => one.text).join('\n\n')}\n`
  const parsed = parseProcedure({ file: 'standard.md', text })
  if (!parsed.ok)
    throw new Error(parsed.diagnostics.map(({ place, what }) => `${place.start.line}: ${what}`).join('\n'))
  const compiled = compile(parsed.value)
  if (!compiled.ok) throw new Error(compiled.diagnostics.map(({ what }) => what).join('\n'))
  return prove(compiled.value, { file: 'standard.md' })
}

/** Ids that fail, in the order of the places where they do. */
export function failing(verdict: Verdict): readonly string[] {
  return verdict.kind === 'proved' ? [] : verdict.diagnostics.map((diagnostic) => diagnostic.id)
}

function swapped(steps: readonly Step[], first: string, next: string): readonly Step[] {
  const at = steps.findIndex((one, index) => one.name === first && steps[index + 1]?.name === next)
  const [one, other] = [steps[at], steps[at + 1]]
  if (one === undefined || other === undefined) throw new Error(`${first} and ${next} are no neighbours`)
  return [...steps.slice(0, at), other, one, ...steps.slice(at + 2)]
}

function neighbours(steps: readonly Step[]): readonly string[] {
  return steps.slice(1).map((one, index) => `${steps[index]?.name} / ${one.name}`)
}

export function checkSwaps(head: string, steps: readonly Step[], swaps: readonly Swap[]): void {
  it('is accepted in the order of the regulation', () => {
    const verdict = verdictOf(head, steps)
    expect(failing(verdict)).toEqual([])
    expect(verdict.kind).toBe('proved')
  })

  it('has every pair of neighbours in the table below', () => {
    expect(swaps.map(({ first, next }) => `${first} / ${next}`)).toEqual(neighbours(steps))
  })

  it.each(swaps.filter(({ fails }) => fails === null))('may have $next before $first: $because', ({ first, next }) => {
    expect(failing(verdictOf(head, swapped(steps, first, next)))).toEqual([])
  })

  it.each(swaps.filter(({ fails }) => fails !== null))(
    'may not have $next before $first ($fails): $because',
    ({ first, next, fails }) => {
      const verdict = verdictOf(head, swapped(steps, first, next))
      expect(verdict.kind).toBe('refused')
      // What is broken later may follow from it; the first fault of the page is the one that the swap made.
      expect(failing(verdict)[0]).toBe(fails)
    }
  )
}
