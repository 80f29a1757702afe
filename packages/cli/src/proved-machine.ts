import { type Compiled, compileFile } from './compile-file.js'
import { findingsText } from './findings.js'
import { readInput } from './read-input.js'
import { sayNote } from './say.js'

/** A file that was proved, ready for a runner; null once its findings were printed. */
export function provedMachine(file: string): Extract<Compiled, { readonly kind: 'proved' }> | null {
  const bytes = readInput(file)
  const compiled = compileFile(file, bytes)
  if (compiled.kind === 'proved') return compiled
  sayNote(findingsText({ file, bytes, compiled }))
  return null
}
