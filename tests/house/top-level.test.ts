import { readdirSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { root } from './sources.js'

const committed = [
  'packages',
  'procedures',
  'tests',
  'examples',
  'README.md',
  'DEVELOPERS.md',
  'package.json',
  'tsconfig.json',
  'pnpm-workspace.yaml',
  'pnpm-lock.yaml',
  'LICENSE',
  'CHANGELOG.md',
  'biome.json',
  'vitest.config.ts',
  '.ci',
  '.editorconfig',
  '.gitattributes',
  '.gitignore',
  '.nvmrc'
]

/** What git ignores or keeps for itself. */
const ignored = ['.git', 'node_modules', 'package-lock.json', 'site', 'coverage', '.DS_Store']

describe('the top level', () => {
  it('holds exactly what the contract names, and the lockfile, licence, changelog, lint and CI files', () => {
    const found = readdirSync(root).filter((name) => !ignored.includes(name))
    expect(found.sort()).toEqual(committed.sort())
  })
})
