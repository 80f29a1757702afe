import { quoted } from './faults.js'

/** What a line that begins with `::` is to the parser, or why it is nothing to it. */
export type DirectiveLine =
  | { readonly kind: 'fence'; readonly colons: number }
  | { readonly kind: 'opening' | 'leaf'; readonly colons: number; readonly name: string }
  | {
      readonly kind: 'broken'
      readonly colons: number
      /** The name that was probably meant. */
      readonly name?: string
      /** The stretch of the line that is wrong, as indexes into it. */
      readonly from: number
      readonly to: number
      readonly what: string
      readonly mend: string
    }

// The grammar of micromark-extension-directive 4 for one line; a test holds the two against each other.
const name = /[^\s\p{P}\p{S}](?:[^\s\p{P}\p{S}]|[-_])*/uy
const quotedValue = /"[^"]*"(?=[}\s])|'[^']*'(?=[}\s])/.source
const plainValue = /[^\s"'<=>`}][^\s"'<=>`]*?(?=[}\s])/.source
const attribute = new RegExp(
  `[ \\t]*(?:[#.][^\\s"#'.<=>\`}][^\\s"#'.<=>\`}]*(?=[#.}\\s])` +
    `|(?:[^\\s\\p{P}\\p{S}]|[-_])(?:[^\\s\\p{P}\\p{S}]|[-._:])*(?![^\\s\\p{P}\\p{S}]|[-._:])(?:[ \\t]*=[ \\t]*(?:${quotedValue}|${plainValue})|(?![ \\t]*=)))`,
  'uy'
)

/** Reads a line whose first visible characters are two or more colons; `indent` is where they begin. */
export function readDirectiveLine(line: string, indent: number): DirectiveLine {
  let index = indent
  while (line[index] === ':') index += 1
  const colons = index - indent
  const end = visibleEnd(line)
  const form = ':'.repeat(colons)
  const broken = (from: number, to: number, what: string, mend: string, guess?: string): DirectiveLine => ({
    kind: 'broken',
    colons,
    from,
    to,
    what,
    mend,
    ...(guess === undefined ? {} : { name: guess })
  })

  if (index >= end) {
    return colons > 2
      ? { kind: 'fence', colons }
      : broken(
          indent,
          end,
          'Two colons alone are no directive.',
          'Write a directive such as `::wait{for="5 min"}`, or a fence of three or more colons.'
        )
  }
  const found = matchAt(name, line, index)
  if (found === undefined || /[-_]$/.test(found)) {
    const after = /^\s+(?=\S)/.exec(line.slice(index))?.[0]
    const guess = matchAt(name, line, index + (after?.length ?? 0))
    if (after !== undefined) {
      return broken(
        indent,
        end,
        `There is a space between \`${form}\` and what follows.`,
        'Take out the space behind the colons.',
        guess
      )
    }
    return broken(
      indent,
      end,
      `No directive name stands behind \`${form}\`.`,
      'Write a name right behind the colons, such as `:::lock`.',
      guess?.replace(/[-_]+$/, '')
    )
  }
  index += found.length
  const opening: DirectiveLine = { kind: colons === 2 ? 'leaf' : 'opening', colons, name: found }

  if (line[index] === '\t') {
    // The parser takes a tab into the name, even at the end of the line.
    return broken(index, index + 1, 'There is a tab behind the name.', 'Take the tab out.', found)
  }
  if (line[index] === '[') {
    const close = endOfLabel(line, index)
    if (close === undefined) {
      return broken(
        index,
        end,
        'The label has no closing bracket on this line.',
        'Close the label with `]` on the same line.',
        found
      )
    }
    index = close
  }
  if (line[index] === '{') {
    const close = endOfAttributes(line, index)
    if (typeof close !== 'number') return broken(close.from, close.to, close.what, close.mend, found)
    index = close
  }
  if (/^[ \t]*$/.test(line.slice(index, end))) return opening
  return { ...behind(line, index, end), kind: 'broken', colons, name: found }
}

function matchAt(pattern: RegExp, line: string, index: number): string | undefined {
  pattern.lastIndex = index
  return pattern.exec(line)?.[0]
}

/** Index behind the `]` that closes the label; brackets inside balance. */
function endOfLabel(line: string, start: number): number | undefined {
  let depth = 0
  for (let index = start + 1; index < line.length; index += 1) {
    const character = line[index]
    if (character === '\\' && /[[\]\\]/.test(line[index + 1] ?? '')) index += 1
    else if (character === '[') depth += 1
    else if (character === ']' && depth > 0) depth -= 1
    else if (character === ']') return index + 1
    if (depth > 32) return undefined
  }
  return undefined
}

interface Trouble {
  readonly from: number
  readonly to: number
  readonly what: string
  readonly mend: string
}

/** Index behind the `}` that closes the attributes, or what is wrong with them. */
function endOfAttributes(line: string, start: number): number | Trouble {
  let index = start + 1
  for (;;) {
    const found = matchAt(attribute, line, index)
    if (found === undefined || found === '') break
    index += found.length
  }
  const close = /^[ \t]*\}/.exec(line.slice(index))?.[0]
  if (close !== undefined) return index + close.length

  const curly = curlyTrouble(line, start)
  if (curly !== undefined) return curly
  const from = index + (/^[ \t]*/.exec(line.slice(index))?.[0].length ?? 0)
  const end = visibleEnd(line)
  const quotes = (line.slice(from).match(/"/g) ?? []).length
  if (quotes % 2 === 1) {
    return {
      from,
      to: end,
      what: 'A quoted value is not closed on this line.',
      mend: 'Close the value with `"` and the attributes with `}` on the same line.'
    }
  }
  if (from >= end || !line.includes('}', from)) {
    return {
      from: start,
      to: end,
      what: 'The attributes have no closing brace on this line.',
      mend: 'Write all attributes on one line and close them with `}`.'
    }
  }
  const stretch = /^\S+/.exec(line.slice(from))?.[0].length ?? 1
  return {
    from,
    to: Math.min(from + stretch, end),
    what: 'The attributes cannot be read from here on.',
    mend: 'Write each attribute as `name=value`, and put a value that holds spaces, signs or quotes in double quotes.'
  }
}

/** Curly, low and angled quotes: a word processor writes them, and here they are signs like any other. */
export const curlyQuote = /[“”„‟‘’‚‛«»‹›]/

const curlyValue = new RegExp(
  `([\\w-]{1,40})[ \\t]*=[ \\t]*(${curlyQuote.source}([^"“”„‟«»‹›}]*)(?:${curlyQuote.source}|")?)`,
  'g'
)

/** A value in curly quotes is what makes attributes unreadable, unless it stands inside plain ones. */
function curlyTrouble(line: string, start: number): Trouble | undefined {
  const text = line.slice(start)
  let quotes = 0
  let counted = 0
  for (const found of text.matchAll(curlyValue)) {
    const [all, name = '', written = '', value = ''] = found
    for (; counted < found.index; counted += 1) quotes += text[counted] === '"' ? 1 : 0
    if (quotes % 2 === 1) continue
    const to = start + found.index + all.length
    return {
      from: to - written.length,
      to,
      what: `The value of ${quoted(name)} stands in curly quotes, which are no quotes here.`,
      mend: mendCurly(name, value.replace(/[‘’‚‛]$/, ''))
    }
  }
  return undefined
}

export function mendCurly(name: string, value: string): string {
  return `Write plain double quotes: ${quoted(`${name}="${value}"`)}.`
}

/** What stands behind the directive on its line. */
function behind(line: string, index: number, end: number): Trouble {
  const rest = line.slice(index, end)
  const from = index + (rest.length - rest.trimStart().length)
  const next = rest.trimStart()[0]
  if (next === '{' && rest[0] !== '{') {
    return {
      from: index,
      to: from + 1,
      what: 'There is a space before the attributes.',
      mend: 'Take out the space before `{`.'
    }
  }
  if (next === '[' && rest[0] !== '[') {
    return {
      from: index,
      to: from + 1,
      what: 'There is a space before the label.',
      mend: 'Take out the space before `[`.'
    }
  }
  if (next === '[') {
    return {
      from,
      to: end,
      what: 'The label stands behind the attributes.',
      mend: 'Write the label first: `:::name[label]{attributes}`.'
    }
  }
  return {
    from,
    to: end,
    what: 'There is text behind the directive on its line.',
    mend: 'Move the text to the next line, or into the label.'
  }
}

/** Index behind the last character that is no space and no tab; other blanks count as characters to the parser. */
function visibleEnd(line: string): number {
  let end = line.length
  while (end > 0 && (line[end - 1] === ' ' || line[end - 1] === '\t')) end -= 1
  return end
}
