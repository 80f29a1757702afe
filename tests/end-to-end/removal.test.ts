import { readdirSync, readFileSync } from 'node:fs'
import { type Block, type Branch, parseProcedure, type Step } from '@lockwright/language'
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
    switch (block.kind) {
      case 'heading':
      case 'gather':
      case 'closing':
      case 'back':
      case 'repeat':
        break
      case 'by':
        yield* inAll(block.whens)
        break
      case 'only':
        yield* inAll([block.branch])
        break
      case 'ask':
        yield* inAll(block.answers)
        break
      case 'within':
        yield* inAll([block.branch, block.late])
        break
      case 'remedies':
        yield* inAll([...block.remedies, block.otherwise])
        break
      case 'measure':
        yield block
        if (block.outside !== undefined) yield* stepsOf(block.outside.body)
        break
      default:
        yield block
    }
  }
}

function* inAll(branches: readonly Branch[]): Iterable<Step> {
  for (const branch of branches) yield* stepsOf(branch.body)
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
  const steps = procedure.ok ? [...stepsOf(procedure.value.body)].filter(({ kind }) => guarded.has(kind)) : []

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
