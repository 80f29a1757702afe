import { type Content, plainText, type Runs } from '@lockwright/language'
import { visible, visibleLines } from './visible.js'

/** Written content as visible lines, not yet wrapped; a leading indent shows where a line stands in a list. */
export function prose(content: readonly Content[]): readonly string[] {
  return content.flatMap((part) => blockLines(part))
}

/** One plain visible line. */
export function line(runs: Runs): string {
  return visible(plainText(runs))
}

function blockLines(part: Content): readonly string[] {
  switch (part.kind) {
    case 'paragraph':
      return [line(part.runs)]
    case 'list':
      return part.items.flatMap((item, index) => {
        const mark = part.ordered ? `${part.start + index}. ` : '- '
        return prose(item).map((text, row) => (row === 0 ? mark : ' '.repeat(mark.length)) + text)
      })
    case 'table':
      return [part.header, ...part.rows].map((cells) => cells.map(line).join(' | '))
    case 'quote':
      return prose(part.content).map((text) => `> ${text}`)
    case 'code':
      return visibleLines(part.text).map((text) => `  ${text}`)
    case 'image':
      return [`(Picture: ${visible(part.alternate)})`]
    case 'rule':
      return ['---']
  }
}
