import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, describe, expect, it } from 'vitest'
import { lockwright, root } from '../cli/transcript.js'

const folder = mkdtempSync(join(tmpdir(), 'lockwright-languages-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))

const pump = join(root, 'procedures/booster-pump-precharge.md')
const spanish = join(root, 'procedures/translations/booster-pump-precharge.es.md')

function run(...args: readonly string[]) {
  return lockwright(args, { cwd: folder })
}

describe('lockwright print with a translation', () => {
  it('sets it beside the procedure', () => {
    const { code, said } = run('print', pump, '--languages', 'en,es', '--with', spanish, '--out', 'both.pdf')
    expect({ code, said }).toMatchObject({ code: 0, said: expect.stringContaining('wrote both.pdf') })
    expect(readFileSync(join(folder, 'both.pdf')).subarray(0, 5).toString()).toBe('%PDF-')
  })

  it('prints nothing where it is another machine, and says where it begins to be', () => {
    const changed = readFileSync(spanish, 'utf8').replace('max=980', 'max=990')
    writeFileSync(join(folder, 'changed.es.md'), changed)
    const { code, said } = run('print', pump, '--languages', 'en,es', '--with', 'changed.es.md', '--out', 'no.pdf')
    const line = changed.slice(0, changed.indexOf('::::measure')).split('\n').length
    expect(code).toBe(1)
    expect(said).toContain(`changed.es.md:${line}: this is no translation of`)
    expect(said).toContain('Bring the translation to the same steps')
    expect(existsSync(join(folder, 'no.pdf'))).toBe(false)
  })

  it.each([
    [['--languages', 'en,de', '--with', spanish], '--languages says en,de'],
    [['--languages', 'en,es'], 'need both'],
    [['--with', spanish], 'need both']
  ])('refuses %j', (flags, told) => {
    const { code, said } = run('print', pump, ...flags, '--out', 'no.pdf')
    expect({ code, said }).toMatchObject({ code: 2, said: expect.stringContaining(told) })
  })
})

describe('lockwright template preview', () => {
  it('prints a sample with the templates of a site', () => {
    mkdirSync(join(folder, 'good/templates'), { recursive: true })
    writeFileSync(join(folder, 'good/templates/letterhead.hbs'), 'Sandholm waterworks, {{equipment.place}}')
    const { code, said } = run('template', 'preview', 'good', '--out', 'preview.pdf')
    expect({ code, said }).toMatchObject({ code: 0, said: expect.stringContaining('wrote preview.pdf, a sample') })
  })

  it('refuses a template that names what there is not, with its place', () => {
    mkdirSync(join(folder, 'bad/templates'), { recursive: true })
    writeFileSync(join(folder, 'bad/templates/footer.hbs'), 'Sheet\n{{#if seriall}}x{{/if}}')
    const { code, said } = run('template', 'preview', 'bad', '--out', 'bad.pdf')
    expect(code).toBe(2)
    expect(said).toContain('bad/templates/footer.hbs:2:7: There is no value `seriall`')
    expect(said).toContain('`serial`')
    expect(existsSync(join(folder, 'bad.pdf'))).toBe(false)
  })
})
