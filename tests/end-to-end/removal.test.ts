import { readdirSync, readFileSync } from 'node:fs'
import { type Block, branchesOf, parseProcedure, type Step } from '@lockwright/language'
import { compile } from '@lockwright/machine/lower'
import { prove } from '@lockwright/proof'
import { describe, expect, it } from 'vitest'

const folder = new URL('../../procedures/', import.meta.url)
const files = readdirSync(folder).filter((name) => name.endsWith('.md') && name !== 'README.md')

/** Steps whose removal any procedure of ours must not survive. */
const guarded: ReadonlySet<Step['kind']> = new Set(['lock', 'relieve', 'prove', 'tryout', 'inspect', 'clear', 'notify'])

/**
 * Steps that a careful coordinator wrote twice on purpose: the procedure stays lawful without any one of them.
 * Each with the reason; a step that is listed and not redundant fails the test too.
 */
const redundantOnPurpose: Readonly<Record<string, Readonly<Record<string, string>>>> = {}

function* stepsOf(blocks: readonly Block[]): Iterable<Step> {
  for (const block of blocks) {
    if (isGuarded(block)) yield block
    for (const { body } of branchesOf(block)) yield* stepsOf(body)
  }
}

function isGuarded(block: Block): block is Step {
  return guarded.has(block.kind as Step['kind'])
}

/** The verdict's word for a text: `malformed` where it does not even parse. */
function wordFor(text: string): string {
  const procedure = parseProcedure({ file: 'procedure.md', text })
  if (!procedure.ok) return 'malformed'
  const machine = compile(procedure.value)
  return machine.ok ? prove(machine.value).kind : 'malformed'
}

describe.each(files)('%s', (file) => {
  const text = readFileSync(new URL(file, folder), 'utf8')
  const procedure = parseProcedure({ file, text })
  const steps = procedure.ok ? [...stepsOf(procedure.value.body)] : []

  it('is proved as it stands', () => {
    expect(wordFor(text)).toBe('proved')
    expect(new Set(steps.map(({ kind }) => kind)).size).toBeGreaterThanOrEqual(6)
  })

  it.each(steps.map((step) => [step.id as string, step] as const))('is refused without %s', (id, step) => {
    const lines = text.split('\n')
    lines.splice(step.whole.start.line - 1, step.whole.end.line - step.whole.start.line + 1)
    const reason = redundantOnPurpose[file]?.[id]
    expect(wordFor(lines.join('\n')), `${step.kind} in line ${step.place.start.line}`).toBe(
      reason === undefined ? 'refused' : 'proved'
    )
  })
})
