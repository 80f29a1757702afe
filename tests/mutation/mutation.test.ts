import { readdirSync, readFileSync } from 'node:fs'
import { parseProcedure } from '@lockwright/language'
import { compile } from '@lockwright/machine/lower'
import { prove } from '@lockwright/proof'
import { describe, expect, it } from 'vitest'
import { parse } from 'yaml'
import { mutantsOf } from './mutants.js'

// A checker is worth what it refuses: every small thing that can go wrong with a procedure of the library is tried, and
// what is accepted all the same stands in `accepted.yaml`, with the reason why it keeps every obligation.

const folder = new URL('../../procedures/', import.meta.url)
const files = readdirSync(folder).filter((name) => name.endsWith('.md') && name !== 'README.md')

interface Group {
  readonly reason: string
  /** By the mutant's name, the line that it changes. */
  readonly mutations: Readonly<Record<string, string>>
}

const reviewed = parse(readFileSync(new URL('accepted.yaml', import.meta.url), 'utf8')) as Readonly<
  Record<string, readonly Group[]>
>

/** `malformed` where it is no procedure any more; else the verdict's word. */
function wordFor(text: string): string {
  const procedure = parseProcedure({ file: 'mutant.md', text })
  if (!procedure.ok) return 'malformed'
  const machine = compile(procedure.value)
  return machine.ok ? prove(machine.value).kind : 'malformed'
}

describe('the reviewed list', () => {
  it('is about the procedures that there are, and gives a reason for each mutant, once', () => {
    expect(Object.keys(reviewed).sort()).toEqual([...files].sort())
    for (const groups of Object.values(reviewed)) {
      expect(groups.filter(({ reason }) => reason.trim().length < 60)).toEqual([])
      const names = groups.flatMap(({ mutations }) => Object.keys(mutations))
      expect(names.filter((name, index) => names.indexOf(name) !== index)).toEqual([])
    }
  })
})

describe.each(files)('%s', (file) => {
  const text = readFileSync(new URL(file, folder), 'utf8')
  const procedure = parseProcedure({ file, text })
  const mutants = procedure.ok ? mutantsOf(text, procedure.value) : []

  it('is proved, and is mutated in each way', () => {
    expect(wordFor(text)).toBe('proved')
    const names = mutants.map(({ name }) => name)
    expect(names.filter((name, index) => names.indexOf(name) !== index)).toEqual([])
    for (const way of ['delete', 'swap', 'drop']) {
      expect(names.filter((name) => name.startsWith(way)).length, way).toBeGreaterThan(20)
    }
  })

  it('is refused with any of these, but for those that were reviewed', { timeout: 240_000 }, () => {
    const accepted = mutants.filter((mutant) => wordFor(mutant.text) === 'proved')
    const listed = (reviewed[file] ?? []).flatMap(({ mutations }) => Object.entries(mutations))
    // What is missing in the list is printed as it would stand there: the reason has to be found by a person.
    expect(accepted.map(({ name, of }) => `${name}: ${of}`).sort()).toEqual(
      listed.map(([name, of]) => `${name}: ${of}`).sort()
    )
  })
})
