import { readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { basename, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import type { Diagnostic } from '@lockwright/language'
import { parseProcedure } from '@lockwright/language'
import { compile } from '@lockwright/machine/lower'
import { describe, expect, it } from 'vitest'
import { prove } from '../prove.js'
import { formatDiagnostic } from '../report.js'
import type { Verdict } from '../verdict.js'
import { obligations } from './index.js'

// Every page beside an obligation holds an accepted and a refused procedure. `LOCKWRIGHT_UPDATE=1` rewrites the printed
// diagnostic alone; the obligation's id and the line of the refusal stay as they were written by hand.

const folder = fileURLToPath(new URL('.', import.meta.url))
const update = process.env['LOCKWRIGHT_UPDATE'] === '1'
const notRules = new Set(['index', 'all'])

function named(extension: string): readonly string[] {
  return readdirSync(folder)
    .filter((name) => name.endsWith(extension) && !name.endsWith('.test.ts'))
    .map((name) => basename(name, extension))
    .filter((name) => !notRules.has(name))
    .sort()
}

interface Block {
  readonly info: string
  readonly text: string
}

/** The fenced blocks whose info begins with the words given. */
function blocks(page: string, info: string): readonly Block[] {
  const fences = [...page.matchAll(/^```(.+)\n([\s\S]*?)^```$/gmu)]
  return fences
    .map(([, about = '', text = '']) => ({ info: about, text }))
    .filter((block) => block.info.startsWith(info))
}

function only<Item>(items: readonly Item[]): Item {
  const [item] = items
  if (item === undefined || items.length !== 1) throw new Error(`expected one, found ${items.length}`)
  return item
}

/** The whole way of one procedure: parse, compile, prove. */
function verdictOf(file: string, text: string): Verdict {
  const parsed = parseProcedure({ file, text })
  if (!parsed.ok) throw new Error(listed(parsed.diagnostics))
  const compiled = compile(parsed.value)
  if (!compiled.ok) throw new Error(listed(compiled.diagnostics))
  return prove(compiled.value, { file })
}

function listed(diagnostics: readonly Diagnostic[]): string {
  return diagnostics.map(({ id, place, what }) => `${id} ${place.start.line}:${place.start.column} ${what}`).join('\n')
}

/** What is not said in backticks. */
function prose(text: string): string {
  return text.replace(/`[^`]*`/gu, '')
}

describe('pages', () => {
  it('stand beside every obligation, and nothing else does', () => {
    const ids = obligations.map((obligation) => obligation.id).sort()
    expect(named('.ts')).toEqual(ids)
    expect(named('.md')).toEqual(ids)
  })

  it('name each obligation of the contract once', () => {
    const ids = obligations.map((obligation) => obligation.id)
    expect(new Set(ids).size).toBe(ids.length)
    expect(ids).toHaveLength(37)
    expect(obligations.filter((obligation) => obligation.waivable).map((obligation) => obligation.id)).toEqual([
      'all-reached',
      'gathered-first'
    ])
  })

  for (const { id, statement, sources, danger } of obligations) {
    describe(id, () => {
      const file = join(folder, `${id}.md`)
      const page = readFileSync(file, 'utf8')

      it('says what the obligation says', () => {
        const sentence = `${statement.charAt(0).toUpperCase()}${statement.slice(1)}.`
        expect(page.split('\n').slice(0, 5)).toEqual([`# ${id}`, '', sentence, '', `Source: ${sources.join('; ')}.`])
        expect(danger).toMatch(/^[A-Z].*[^.]\.$/u)
      })

      it('holds a procedure that is proved', () => {
        const verdict = verdictOf('accepted.md', only(blocks(page, 'markdown accepted')).text)
        expect(verdict.kind === 'proved' ? '' : listed(verdict.diagnostics)).toBe('')
        const outcome = verdict.report.obligations.find((obligation) => obligation.id === id)?.outcome
        // The proof of an accepted procedure is not empty: the obligation arises in it.
        expect(outcome).toBe('holds')
      })

      it('holds a procedure that is refused for this alone, at the line given', () => {
        const refused = only(blocks(page, 'markdown refused'))
        const line = Number(/ line=(\d+)$/u.exec(refused.info)?.[1])
        const verdict = verdictOf('refused.md', refused.text)
        if (verdict.kind !== 'refused') throw new Error(`the refused procedure is ${verdict.kind}`)
        expect(
          verdict.diagnostics.map((one) => [one.id, one.place.start.line]),
          listed(verdict.diagnostics)
        ).toEqual([[id, line]])
        const diagnostic = verdict.diagnostics[0]
        expect(prose(`${diagnostic.what} ${diagnostic.danger} ${diagnostic.mend}`)).not.toMatch(
          /\b(?:safe|illegal)\b/iu
        )
        const printed = formatDiagnostic(diagnostic, refused.text)
        const shown = only(blocks(page, 'text diagnostic')).text
        if (update)
          writeFileSync(
            file,
            page.replace(`diagnostic\n${shown}\`\`\``, () => `diagnostic\n${printed}\`\`\``)
          )
        else expect(shown).toBe(printed)
      })
    })
  }
})
