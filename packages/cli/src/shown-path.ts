import { relative } from 'node:path'

/** A path as it is typed from here: relative where it lies below this folder, else whole. */
export function shownPath(path: string): string {
  const below = relative(process.cwd(), path)
  if (below === '') return '.'
  return below.startsWith('..') ? path : below
}
