import { readdirSync, readFileSync } from 'node:fs'
import { DIRECTIVES, parseProcedure } from '@lockwright/language'
import { compile } from '@lockwright/machine/lower'
import { obligations } from '@lockwright/proof'
import { describe, expect, it } from 'vitest'
import { answersTo, explained } from './explain-answers.js'
import { obligationsOf } from './explain-obligations.js'
import { textOf } from './explain-text.js'

const pages = new URL('../../../proof/src/obligations/', import.meta.url)
const library = new URL('../../../../procedures/', import.meta.url)

function read(folder: URL): readonly string[] {
  return readdirSync(folder)
    .filter((name) => name.endsWith('.md'))
    .map((name) => readFileSync(new URL(name, folder), 'utf8'))
}

/** What the compiler makes each kind of step keep, over the library and the pages of the obligations. */
function needs(): ReadonlyMap<string, ReadonlySet<string>> {
  const texts = [
    ...read(library),
    ...read(pages).flatMap((page) =>
      [...page.matchAll(/^```markdown accepted\n([\s\S]*?)^```$/gm)].map((all) => all[1])
    )
  ]
  const found = new Map<string, Set<string>>()
  for (const text of texts) {
    const parsed = parseProcedure({ file: 'page.md', text: text ?? '' })
    const compiled = parsed.ok ? compile(parsed.value) : parsed
    if (!compiled.ok) throw new Error('a page does not compile')
    for (const { kind, turns } of compiled.value.states) {
      const kept = found.get(kind) ?? new Set()
      for (const { obligation } of turns.flatMap((turn) => turn.needs).flatMap(({ rungs }) => rungs))
        kept.add(obligation)
      found.set(kind, kept)
    }
  }
  return found
}

describe('the obligations that look at a directive', () => {
  it('are given for every directive, and are all obligations that there are', () => {
    expect(Object.keys(obligationsOf).sort()).toEqual(DIRECTIVES.map(({ name }) => name).sort())
    const named = new Set(Object.values(obligationsOf).flat())
    // This one looks at whole machines.
    named.add('all-reached')
    expect([...named].sort()).toEqual(obligations.map(({ id }) => id).sort())
  })

  it('are at least those that the compiler makes its step keep', () => {
    const found = needs()
    expect(found.size).toBeGreaterThan(15)
    const left = [...found].flatMap(([kind, kept]) =>
      Object.hasOwn(obligationsOf, kind)
        ? [...kept].filter((id) => !obligationsOf[kind]?.includes(id)).map((id) => `${kind}: ${id}`)
        : []
    )
    expect(left).toEqual([])
  })
})

describe('every name', () => {
  const names = [...new Set(Object.values(explained).flat())]

  it.each(names)('%s is explained, in lines that fit', (name) => {
    const answers = answersTo(name)
    expect(answers.length).toBeGreaterThan(0)
    for (const answer of answers) {
      if (answer.group === 'obligation') continue
      const text = textOf(answer)
      expect(text.startsWith(`${name}, `)).toBe(true)
      expect(text).not.toMatch(/undefined|\n\n\n|[^.]\.\.(?!\.)/)
      const prose = text.split('\n').filter((line) => !/^ {4}\S*[:`#|]/.test(line) && !line.includes('{'))
      expect(prose.filter((line) => line.length > 100)).toEqual([])
    }
  })

  it('answers for each thing that bears it', () => {
    expect(answersTo('only').map(({ group }) => group)).toEqual(['directive', 'key'])
    expect(answersTo('other').map(({ group }) => group)).toEqual(['energy kind', 'restraint kind'])
    expect(answersTo('left-on').map(({ group }) => group)).toEqual(['obligation', 'key'])
    expect(answersTo('safe-below').map(({ group }) => group)).toEqual(['parameter'])
    expect(answersTo('hasOwnProperty')).toEqual([])
  })
})
