import { formatPaths, type Paths, pathsOf } from '@lockwright/proof'
import { compileFile } from '../compile-file.js'
import { type ExitCode, exit } from '../exit.js'
import { findingsText } from '../findings.js'
import { readInput } from '../read-input.js'
import { sayJson, sayLine, sayNote } from '../say.js'

export interface PathsFlags {
  readonly format: 'text' | 'json'
}

/** Counts the ways through a procedure and lists the runs to rehearse; it need not be proved. */
export function paths(file: string, flags: PathsFlags): ExitCode {
  const bytes = readInput(file)
  const compiled = compileFile(file, bytes)
  if (compiled.kind === 'malformed') {
    sayNote(findingsText({ file, bytes, compiled }))
    return exit.findings
  }
  const found = pathsOf(compiled.machine)
  if (flags.format === 'json') sayJson(plain(found))
  else sayLine(formatPaths(found).trimEnd())
  if (compiled.kind === 'proved') return exit.well
  sayNote(`${file} is ${compiled.kind}: \`lockwright check\` shows why. Nobody is to rehearse it on the machine.`)
  return exit.findings
}

/** JSON has no whole numbers of any size: counts are texts there. */
function plain({ generations, ...rest }: Paths) {
  return {
    ...rest,
    generations: generations.map(({ generation, ways, rehearsal }) => ({
      generation: Object.fromEntries(generation),
      ways: {
        ...ways,
        toFinish: String(ways.toFinish),
        toStop: String(ways.toStop),
        toNowhere: String(ways.toNowhere),
        intoLoops: String(ways.intoLoops)
      },
      rehearsal
    }))
  }
}
