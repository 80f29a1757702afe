import { existsSync, readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { program } from '../../packages/cli/src/program.js'
import { filesUnder, root } from './sources.js'

const readme = readFileSync(join(root, 'README.md'), 'utf8')
const developers = readFileSync(join(root, 'DEVELOPERS.md'), 'utf8')

describe('the README', () => {
  it('begins with the job, then the two commands', () => {
    const [title, job, promise, commands] = readme.split(/\n\n+/)
    expect(title).toBe('# lockwright')
    expect(job?.length).toBeGreaterThan(300)
    expect(promise).toContain('A proof is not a promise')
    expect(commands).toBe('## Two commands')
  })

  it('lists every command, and no other', async () => {
    const table = readme.slice(readme.indexOf('## Commands'))
    const named = [...table.matchAll(/^\| `([a-z]+)[^`]*` \|/gm)].map(([, name]) => name)
    const { commands } = await program()
    expect(named.sort()).toEqual(commands.map((command) => command.name()).sort())
  })
})

describe('every page', () => {
  const pages = filesUnder(
    '.',
    /^(README|DEVELOPERS|CHANGELOG)\.md$|^(packages|procedures|tests|examples)\/.*\.md$/
  ).filter(({ path }) => !path.includes('/fixtures/'))

  it('links only to what is there', () => {
    const dead = pages.flatMap(({ path, text }) =>
      // What stands in code is no link of the page.
      [...text.replace(/^(`{3,})[\s\S]*?^\1$|`[^`\n]*`/gm, '').matchAll(/\]\(([^)\s]+)\)/g)]
        .map(([, target = '']) => target.replace(/#.*$/, ''))
        .filter((target) => target !== '' && !/^[a-z]+:/.test(target))
        .filter((target) => !existsSync(join(root, dirname(path), target)))
        .map((target) => `${path} links to ${target}`)
    )
    expect(dead).toEqual([])
  })

  it('claims of no procedure that it is safe', () => {
    const claims = pages.filter(({ text }) =>
      /(?<!whether the )\b(procedure|work|machine) (is|are) (now )?(proven |proved )?safe\b/i.test(text)
    )
    expect(claims.map(({ path }) => path)).toEqual([])
  })
})

describe('DEVELOPERS.md', () => {
  it('names only files and folders that are there', () => {
    const paths = [...developers.matchAll(/`((?:packages|procedures|examples|tests|\.ci)\/[\w./*-]*)`/g)].map(
      ([, path = '']) => path
    )
    expect(paths.length).toBeGreaterThan(10)
    expect(paths.filter((path) => !existsSync(join(root, path)) && !/examples\/demo\/out/.test(path))).toEqual([])
  })

  it('draws the pipeline as one line that names its stages in order', () => {
    const stages = ['parseProcedure', 'Procedure', 'compile', 'Machine', 'prove', 'ProvedMachine']
    const line = developers.split('\n').find((one) => stages.every((stage) => one.includes(stage)))
    expect(line).toBeDefined()
    const places = stages.map((stage) => line?.indexOf(stage) ?? -1)
    expect(places).toEqual([...places].sort((one, other) => one - other))
  })

  it('points at one short file in which the whole pipeline is one expression', () => {
    const glue = readFileSync(join(root, 'packages/cli/src/compile-file.ts'), 'utf8')
    expect(developers).toContain('packages/cli/src/compile-file.ts')
    expect(glue.split('\n').length).toBeLessThan(100)
    expect(glue).toMatch(/parseProcedure\(.*\n.*compile\(.*proved\(/)
  })
})
