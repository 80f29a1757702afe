import type { List, Paragraph } from 'mdast'
import { quoted } from '../faults.js'
import type { BodyContext } from './context.js'

// Where prose goes on, a number may stand at the left edge by chance: there only a title such as `Step 3:` counts.
const atStart = /^[*_]{0,3}(step[ \t]+\d+)(?!\w)/i
const goingOn = /^[ \t]*[*_]{0,3}(S(?:tep|TEP)[ \t]+\d+)[*_]{0,3}[ \t]*[:.)–—-](?!\d)/

/** Prose and bullets outside of all steps that are written as numbered steps: they are shown, and nothing asks for them. */
export function warnOfWrittenSteps(node: Paragraph | List, context: BodyContext): void {
  if (node.type === 'paragraph') {
    warnOf(node, context)
    return
  }
  for (const item of node.children) {
    for (const child of item.children) {
      if (child.type === 'paragraph' || child.type === 'list') warnOfWrittenSteps(child, context)
    }
  }
}

function warnOf(node: Paragraph, context: BodyContext): void {
  const { source, faults } = context
  const place = context.place(node.position)
  for (let line = place.start.line; line <= place.end.line; line += 1) {
    const first = line === place.start.line
    const from = first ? place.start.column - 1 : 0
    const found = (first ? atStart : goingOn).exec(source.line(line).slice(from))
    if (found === null) continue
    const [all, words = ''] = found
    const begin = from + all.indexOf(words)
    faults.warn(
      'written-step',
      source.placeInLine(line, begin, begin + words.length),
      `This line begins with ${quoted(words)} and is no step: prose and bullets are information.`,
      'Write work with hands in the machine as a numbered list or `:::work`, and every other step as its directive, such as `::lock`; information needs no number.'
    )
  }
}
