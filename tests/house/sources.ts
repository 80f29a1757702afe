import { readdirSync, readFileSync } from 'node:fs'
import { dirname, join, relative } from 'node:path'
import { fileURLToPath } from 'node:url'

/** The root of the workspace. */
export const root = join(dirname(fileURLToPath(import.meta.url)), '../..')

export const packageNames = [
  'energy',
  'language',
  'machine',
  'proof',
  'records',
  'runner-paper',
  'runner-terminal',
  'cli'
] as const

export interface SourceFile {
  /** From the root, with forward slashes. */
  readonly path: string
  readonly text: string
}

/** Files under a folder of the workspace whose path fits; installed, built and generated files are left out. */
export function filesUnder(folder: string, wanted: RegExp): SourceFile[] {
  return readdirSync(join(root, folder), { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile())
    .map((entry) => relative(root, join(entry.parentPath, entry.name)).split('\\').join('/'))
    .filter((path) => wanted.test(path) && !/(^|\/)(node_modules|dist|out|coverage)\//.test(path))
    .sort()
    .map((path) => ({ path, text: readFileSync(join(root, path), 'utf8') }))
}

/** Sources and tests of all packages. */
export function packageSources(): SourceFile[] {
  return filesUnder('packages', /^packages\/[^/]+\/src\/.*\.tsx?$/)
}

/** Every module that a file imports or re-exports from, types included. */
export function importsOf(text: string): string[] {
  const found = [...text.matchAll(/(?:^|\n)\s*(?:import|export)\b[^'"`;]*?\bfrom\s*['"]([^'"]+)['"]/g)]
  const bare = [...text.matchAll(/(?:^|\n)\s*import\s*['"]([^'"]+)['"]/g)]
  const lazy = [...text.matchAll(/\bimport\(\s*['"]([^'"]+)['"]\s*\)/g)]
  return [...found, ...bare, ...lazy].flatMap(([, name]) => (name === undefined ? [] : [name]))
}
