import type { Faults } from '../faults.js'
import type { SourceText } from '../source-text.js'

export interface FrontMatterText {
  /** Offset of its first character in the source. */
  readonly start: number
  readonly end: number
  /** The line behind the closing `---`. */
  readonly next: number
}

const fence = /^---[ \t]*$/

/** The YAML between the first two lines of three hyphens; undefined, with a fault, where there is none. */
export function findFrontMatter(source: SourceText, faults: Faults): FrontMatterText | undefined {
  if (!fence.test(source.line(1))) {
    const later = firstFence(source, 2)
    const before = later === undefined ? '' : ` Line ${later} has three hyphens, but something stands before it.`
    faults.add(
      'missing-front-matter',
      source.place(0, 0),
      `The file does not begin with front matter.${before}`,
      'Begin the file with a line `---`, then the declaration of the machine, then a line `---`.'
    )
    return undefined
  }
  const closing = firstFence(source, 2)
  if (closing === undefined) {
    faults.add(
      'unclosed-front-matter',
      source.placeOfLine(1),
      'The front matter is not closed.',
      'Write a line `---` behind the declaration of the machine.'
    )
    return undefined
  }
  return { start: source.startOf(2), end: source.startOf(closing), next: closing + 1 }
}

function firstFence(source: SourceText, from: number): number | undefined {
  for (let line = from; line <= source.lineCount; line += 1) {
    if (fence.test(source.line(line))) return line
  }
  return undefined
}
