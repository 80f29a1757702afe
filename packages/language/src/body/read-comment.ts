import { findDirective } from '../directives.js'
import { quoted } from '../faults.js'
import type { Place } from '../place.js'
import type { BodyContext } from './context.js'

/** Drops a comment; one that holds a directive, and any other HTML, is reported. */
export function readComment(value: string, place: Place, context: BodyContext): void {
  const { faults, source } = context
  const outside = value.replace(/<!--(?:-?>|[\s\S]*?-->)/g, '').trim()
  if (outside !== '' && !value.trimStart().startsWith('<!--')) {
    faults.add('html', place, `${quoted(value.trim())} is HTML.`, 'Write it in Markdown.')
    return
  }
  if (outside !== '')
    faults.add(
      'html',
      place,
      'There is text or HTML on the same lines as a comment.',
      'Put the comment on lines of its own.'
    )
  for (const match of value.matchAll(/(?:^|[\s>-])(:{2,}\s?([A-Za-z][\w-]*))/g)) {
    const [, written = '', name = ''] = match
    if (findDirective(name.toLowerCase()) === undefined) continue
    const start = place.start.offset + match.index + match[0].indexOf(written)
    faults.add(
      'directive-in-comment',
      source.place(start, start + written.length),
      `The directive ${quoted(name)} stands inside a comment.`,
      'Take it out of the comment, or take it out altogether.'
    )
  }
}
