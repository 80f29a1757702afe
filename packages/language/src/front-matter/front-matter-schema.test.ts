import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { Ajv2020 } from 'ajv/dist/2020.js'
import { describe, expect, it } from 'vitest'
import { parse } from 'yaml'
import { parseProcedure } from '../parse-procedure.js'
import { frontMatterSchema } from './front-matter-schema.js'

const published = new URL('../../schema/front-matter.schema.json', import.meta.url)
const refused = new URL('../../fixtures/refused/', import.meta.url)
const accepted = new URL('../../fixtures/accepted/', import.meta.url)

const validate = new Ajv2020({ allErrors: true, strict: true, strictRequired: false, allowUnionTypes: true }).compile(
  frontMatterSchema
)

function frontMatterOf(text: string): unknown {
  const found = /^\ufeff?---\r?\n([\s\S]*?\n)---\r?\n/.exec(text)?.[1]
  return parse(found ?? '')
}

/** Refused for what a schema can say: keys, shapes and words, not names, dimensions or rings. */
const expressible = [
  'key-unknown',
  'key-prototype',
  'title-empty',
  'title-is-list',
  'title-missing',
  'revision-not-whole',
  'revision-zero',
  'procedure-with-spaces',
  'equipment-without-place',
  'review-not-a-duration',
  'language-not-a-tag',
  'order-unknown',
  'template',
  'energy-empty',
  'energy-missing',
  'source-without-kind',
  'source-of-unknown-kind',
  'source-parameter-missing',
  'source-parameter-of-other-kind',
  'source-parameter-unknown',
  'source-without-phases',
  'source-without-feed',
  'source-fed-and-unfed',
  'electrical-unfed',
  'quantity-without-unit',
  'quantity-with-comma',
  'restraint-of-unknown-kind',
  'restraint-needs-power',
  'restraint-holds-nothing',
  'point-without-place',
  'point-normal-unknown',
  'role-without-name',
  'role-flag-unknown',
  'axis-without-question',
  'name-badly-spelled',
  'left-on-without-permit',
  'waiver-of-obligation',
  'waiver-without-reason',
  'waive-is-a-mapping',
  'alias-bomb',
  'yaml-too-deep',
  'decimal-comma-in-braces'
]

describe('the published schema of the front matter', () => {
  it('is the one that the tables of the parser make', () => {
    const made = JSON.stringify(frontMatterSchema)
    const stands = existsSync(published) ? JSON.stringify(JSON.parse(readFileSync(published, 'utf8'))) : ''
    if (process.env['UPDATE_FIXTURES'] === '1' && made !== stands) writeFileSync(published, made)
    expect(JSON.parse(readFileSync(published, 'utf8'))).toEqual(frontMatterSchema)
  })

  it.each(readdirSync(accepted).filter((name) => name.endsWith('.md')))('takes the front matter of %s', (name) => {
    validate(frontMatterOf(readFileSync(new URL(name, accepted), 'utf8')))
    expect(validate.errors ?? []).toEqual([])
  })

  it.each(expressible)('refuses %s, as the parser does', (name) => {
    const text = readFileSync(new URL(`${name}.md`, refused), 'utf8')
    expect(validate(frontMatterOf(text))).toBe(false)
    expect(parseProcedure({ file: name, text }).ok).toBe(false)
  })

  it('knows the front matter of every other case, whose faults lie elsewhere', () => {
    const others = readdirSync(refused).filter(
      (name) => name.endsWith('.md') && !expressible.includes(name.slice(0, -3))
    )
    const broken = others.filter((name) => {
      try {
        return !validate(frontMatterOf(readFileSync(new URL(name, refused), 'utf8')))
      } catch {
        return true
      }
    })
    expect(broken.sort()).toEqual([
      'aliases-too-many.md',
      'empty.md',
      'front-matter-empty.md',
      'front-matter-left-open.md',
      'front-matter-list.md',
      'front-matter-missing.md',
      'front-matter-not-first.md',
      'key-twice.md',
      'yaml-broken.md',
      'yaml-tab.md'
    ])
  })
})
