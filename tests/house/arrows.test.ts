import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { importsOf, packageNames, packageSources, root } from './sources.js'

/** language -> machine -> proof -> records -> runners -> cli; energy stands beside and imports none of ours. */
const mayImport: Readonly<Record<(typeof packageNames)[number], readonly string[]>> = {
  energy: [],
  language: ['energy'],
  machine: ['energy', 'language'],
  proof: ['energy', 'language', 'machine'],
  records: ['energy', 'language', 'machine', 'proof'],
  'runner-paper': ['energy', 'language', 'machine', 'proof', 'records'],
  'runner-terminal': ['energy', 'language', 'machine', 'proof', 'records'],
  cli: ['energy', 'language', 'machine', 'proof', 'records', 'runner-paper', 'runner-terminal']
}

const sources = packageSources()

describe('the arrows between packages', () => {
  it.each(packageNames)('%s imports only what stands left of it', (name) => {
    const wrong = sources
      .filter(({ path }) => path.startsWith(`packages/${name}/`))
      .flatMap(({ path, text }) =>
        importsOf(text)
          .filter((to) => to.startsWith('@lockwright/') && to.split('/')[1] !== name)
          .filter((to) => !mayImport[name].includes(to.split('/')[1] ?? ''))
          .map((to) => `${path} imports ${to}`)
      )
    expect(wrong).toEqual([])
  })

  it('reach another package only through its exports', () => {
    const wrong = sources.flatMap(({ path, text }) =>
      importsOf(text)
        .filter((to) => to.startsWith('.'))
        .filter((to) => !join(path, '..', to).startsWith(path.split('/').slice(0, 2).join('/')))
        .map((to) => `${path} imports ${to}`)
    )
    expect(wrong).toEqual([])
  })

  it.each(packageNames)('%s declares every package that it imports', (name) => {
    const manifest = JSON.parse(readFileSync(join(root, 'packages', name, 'package.json'), 'utf8')) as {
      dependencies?: Record<string, string>
    }
    const workspace = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as {
      devDependencies: Record<string, string>
    }
    const declared = new Set([...Object.keys(manifest.dependencies ?? {}), `@lockwright/${name}`])
    const wrong = sources
      .filter(({ path }) => path.startsWith(`packages/${name}/`))
      .flatMap(({ path, text }) =>
        importsOf(text)
          .filter((to) => !to.startsWith('.') && !to.startsWith('node:') && !to.startsWith('#'))
          .map((to) => to.split('/', to.startsWith('@') ? 2 : 1).join('/'))
          .filter((to) => !declared.has(to) && !declared.has(`@types/${to}`))
          .filter((to) => !(/\.test\.tsx?$|\/testing\//.test(path) && to in workspace.devDependencies))
          .map((to) => `${path} imports ${to}`)
      )
    expect(wrong).toEqual([])
  })

  it('finds imports of every form', () => {
    const text =
      "import 'a'\nimport b from 'b'\nimport {\n  c\n} from \"c\"\nexport * from 'd'\nconst e = await import('e')\n"
    expect(importsOf(text).sort()).toEqual(['a', 'b', 'c', 'd', 'e'])
  })
})
