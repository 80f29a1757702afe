import { readdirSync, statSync } from 'node:fs'
import { join } from 'node:path'

/**
 * The files that were named: each as written, a folder as the Markdown files in it and below, in order, but for
 * a README, which tells about the folder.
 */
export function expandFiles(names: readonly string[]): string[] {
  return [...new Set(names.flatMap(expand))]
}

function expand(name: string): string[] {
  if (!isFolder(name)) return [name]
  return readdirSync(name, { withFileTypes: true })
    .toSorted((one, other) => (one.name < other.name ? -1 : 1))
    .flatMap((entry) => {
      if (entry.name.startsWith('.') || entry.name === 'node_modules') return []
      if (entry.isDirectory()) return expand(join(name, entry.name))
      return /\.md$/i.test(entry.name) && !/^readme\.md$/i.test(entry.name) ? [join(name, entry.name)] : []
    })
}

function isFolder(name: string): boolean {
  return statSync(name, { throwIfNoEntry: false })?.isDirectory() === true
}
