import type { DirectiveSpecification } from '../directive-specification.js'
import { findDirective } from '../directives.js'
import { type Faults, quoted } from '../faults.js'
import type { SourceText } from '../source-text.js'

const oneColon = /^ {0,3}:([A-Za-z]+)(?=[[{]|[ \t]*$)/
const closeHeading = /^( {0,3})(#{1,6})\p{L}/u

/** `:lock{at=Q1}` is prose to the parser, and a step to whoever wrote it. The directive that was meant, if one was. */
export function reportOneColon(line: number, source: SourceText, faults: Faults): DirectiveSpecification | undefined {
  const text = source.line(line)
  const written = oneColon.exec(text)?.[1]
  const meant = written === undefined ? undefined : findDirective(written.toLowerCase())
  if (written === undefined || meant === undefined) return undefined
  const { name, leaf, container } = meant
  const forms = [
    ...(leaf ? [`${quoted(`::${name}`)} for one line`] : []),
    ...(container ? [`${quoted(`:::${name}`)} ... \`:::\` for a block`] : [])
  ]
  const from = text.indexOf(':')
  faults.add(
    'broken-directive',
    source.placeInLine(line, from, from + 1 + written.length),
    `One colon is not enough for the directive ${quoted(name)}.`,
    `Write ${forms.join(', or ')}.`
  )
  return meant
}

/** `#Heading` is prose to the parser, and a heading to whoever wrote it, or a word of its own. */
export function warnOfCloseHeading(line: number, source: SourceText, faults: Faults): void {
  const text = source.line(line)
  const found = closeHeading.exec(text)
  if (found === null) return
  const [, indent = '', signs = ''] = found
  faults.warn(
    'heading-without-space',
    source.placeInLine(line, indent.length, text.trimEnd().length),
    `No space stands behind ${quoted(signs)}, so this line is prose and no heading.`,
    `Write a space behind ${quoted(signs)} to make it a heading, or begin the line with a word.`
  )
}
