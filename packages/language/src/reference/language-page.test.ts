import { readFileSync, writeFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { languageTables, withTables } from './language-tables.js'

const file = new URL('../../LANGUAGE.md', import.meta.url)

/** `UPDATE_FIXTURES=1 npx vitest run packages/language` draws the tables again. */
describe('LANGUAGE.md', () => {
  it('has each drawn part once', () => {
    const named = [...readFileSync(file, 'utf8').matchAll(/^<!-- drawn: (.+) -->$/gm)].map(([, name]) => name)
    expect(named.sort()).toEqual(Object.keys(languageTables).sort())
  })

  it('says what the tables of the parser say', () => {
    const page = readFileSync(file, 'utf8')
    const drawn = withTables(page)
    if (process.env['UPDATE_FIXTURES'] === '1' && drawn !== page) writeFileSync(file, drawn)
    expect(readFileSync(file, 'utf8')).toBe(drawn)
  })
})
