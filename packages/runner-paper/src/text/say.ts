import type { Content, Runs } from '@lockwright/language'

/** Plain text as runs. */
export function say(text: string): Runs {
  return [{ kind: 'text', text }]
}

/** Text in bold as runs. */
export function stress(text: string): Runs {
  return [{ kind: 'strong', text }]
}

/** Runs as one paragraph. */
export function paragraph(runs: Runs): readonly Content[] {
  return [{ kind: 'paragraph', runs }]
}

/** Number and unit that must not be parted by the end of a line. */
export function unbroken(text: string): string {
  return text.replaceAll(' ', '\u00A0')
}

/** A sentence in which what stands between backticks is a name: set in bold, without them. */
export function sayNamed(text: string): Runs {
  return text.split('`').flatMap((part, index) => (part === '' ? [] : index % 2 === 1 ? stress(part) : say(part)))
}
