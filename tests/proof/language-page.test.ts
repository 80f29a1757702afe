import { readFileSync } from 'node:fs'
import { parseProcedure } from '@lockwright/language'
import { compile } from '@lockwright/machine/lower'
import { prove } from '@lockwright/proof'
import { describe, expect, it } from 'vitest'

const page = readFileSync(new URL('../../packages/language/LANGUAGE.md', import.meta.url), 'utf8')
const procedures = [...page.matchAll(/^```markdown proved\n([\s\S]*?)^```$/gm)].map(([, text = '']) => text)

/** Whoever begins with the language begins with these. */
describe('the whole procedures of LANGUAGE.md', () => {
  it('are two', () => {
    expect(procedures).toHaveLength(2)
  })

  it.each(procedures)('are proved: %#', (text) => {
    const parsed = parseProcedure({ file: 'page.md', text })
    expect(parsed.ok ? parsed.warnings : parsed.diagnostics).toEqual([])
    const compiled = parsed.ok ? compile(parsed.value) : parsed
    expect(compiled.ok ? compiled.warnings : compiled.diagnostics).toEqual([])
    const verdict = compiled.ok ? prove(compiled.value, { file: 'page.md' }) : undefined
    expect(verdict?.kind === 'refused' ? verdict.diagnostics.map(({ id, what }) => `${id}: ${what}`) : []).toEqual([])
    expect(verdict?.kind).toBe('proved')
  })
})
