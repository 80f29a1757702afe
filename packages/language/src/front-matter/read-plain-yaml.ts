import type { YamlEntry, YamlMapping, YamlNode } from './yaml-tree.js'

/**
 * Reads front matter that is written as nearly all is: `key: value` with keys indented under keys, values of plain or
 * quoted text on one line, and lists and mappings in brackets on one line. Undefined for anything else, which is no
 * fault: the YAML library reads it then. It costs a tenth of the library's time, which is a fifth of the whole; a
 * test holds the two against each other.
 */
export function readPlainYaml(text: string, base: number): YamlMapping | undefined {
  // No tabs, no carriage returns, no characters beyond the printable ones.
  if (/[^\n\u0020-\u007e\u00a1-\u1fff\u2010-\u2027\u2030-\ud7ff]/.test(text)) return undefined
  const reader = new PlainYaml(text, base)
  return reader.mapping(0)
}

// No key of the language is deeper.
const deepest = 8

const blockKey = /( *)([A-Za-z0-9_][\w+-]*):(?: +|(?=\n|$))/y
const flowKey = /([A-Za-z0-9_][\w+-]*): +/y
// A comment needs a space before it; a colon makes a key only before a space.
const blockText = /[\p{L}\p{N}](?:[^\n:# ]|:(?=[^\n ])| +(?=[^\n# ])|(?<! )#)*/uy
const flowText = /[\p{L}\p{N}](?:[^\n:# ,[\]{}]|:(?=[^\n ,[\]{}])| +(?=[^\n# ,[\]{}])|(?<! )#)*/uy
const quotedText = /"([^"\\\n]*)"|'([^'\n]*)'(?!')/y
const restOfLine = / *(?:(?<= )#[^\n]*)?(?:\n|$)/y
const emptyLines = /(?: *(?:#[^\n]*)?\n)*/y

class PlainYaml {
  private readonly text: string
  private readonly base: number
  private at = 0
  private depth = 0

  constructor(text: string, base: number) {
    this.text = text
    this.base = base
  }

  private match(pattern: RegExp): RegExpExecArray | undefined {
    pattern.lastIndex = this.at
    const found = pattern.exec(this.text)
    if (found === null) return undefined
    this.at = pattern.lastIndex
    return found
  }

  /** The keys at one indent; ends before a line that stands further left. */
  mapping(indent: number): YamlMapping | undefined {
    const entries: YamlEntry[] = []
    for (;;) {
      this.match(emptyLines)
      if (this.at >= this.text.length || this.indentHere() < indent) break
      const found = this.match(blockKey)
      if (found === undefined || found[1]?.length !== indent) return undefined
      const [all, , name = ''] = found
      const start = this.base + found.index + indent
      const key: YamlNode = { kind: 'text', text: name, start, end: start + name.length }
      const nested = all.endsWith(':') || this.match(restOfLine) !== undefined
      const value = nested ? this.nested(indent) : this.line(indent)
      if (value === null) return undefined
      entries.push({ key, value })
    }
    const [first] = entries
    const last = entries.at(-1)
    if (first === undefined || last === undefined) return undefined
    return { kind: 'mapping', entries, start: first.key.start, end: (last.value ?? last.key).end }
  }

  private indentHere(): number {
    let end = this.at
    while (this.text[end] === ' ') end += 1
    return end - this.at
  }

  /** What stands below a key; undefined where nothing does, null where it is not plain. */
  private nested(indent: number): YamlNode | undefined | null {
    if (this.text[this.at] === '\n') this.at += 1
    this.match(emptyLines)
    const inner = this.indentHere()
    if (this.at >= this.text.length || inner < indent) return undefined
    if (inner === indent) return this.text[this.at + inner] === '-' ? null : undefined
    this.depth += 1
    const mapping = this.depth > deepest ? null : (this.mapping(inner) ?? null)
    this.depth -= 1
    return mapping
  }

  /** What stands behind a key on its line; the next line must not go on with it. */
  private line(indent: number): YamlNode | null {
    const value = this.value(blockText)
    if (value === null || this.match(restOfLine) === undefined) return null
    const here = this.at
    this.match(emptyLines)
    const deeper = this.at < this.text.length && this.indentHere() > indent
    this.at = here
    return deeper ? null : value
  }

  private value(plain: RegExp): YamlNode | null {
    const start = this.at
    const character = this.text[start]
    if (character === '{' || character === '[') {
      this.depth += 1
      const flow = this.depth > deepest ? null : this.flow(character)
      this.depth -= 1
      return flow
    }
    const quoted = character === '"' || character === "'"
    const found = this.match(quoted ? quotedText : plain)
    if (found === undefined) return null
    const text = quoted ? (found[1] ?? found[2] ?? '') : found[0]
    return { kind: 'text', text, start: this.base + start, end: this.base + this.at }
  }

  private skipSpaces(): void {
    while (this.text[this.at] === ' ') this.at += 1
  }

  /** A list or a mapping in brackets, on one line. */
  private flow(opening: '{' | '['): YamlNode | null {
    const start = this.base + this.at
    const closing = opening === '{' ? '}' : ']'
    const entries: YamlEntry[] = []
    const items: YamlNode[] = []
    this.at += 1
    this.skipSpaces()
    while (this.text[this.at] !== closing) {
      if (opening === '{') {
        const found = this.match(flowKey)
        const name = found?.[1]
        if (found === undefined || name === undefined) return null
        const keyStart = this.base + found.index
        const value = this.value(flowText)
        if (value === null) return null
        entries.push({ key: { kind: 'text', text: name, start: keyStart, end: keyStart + name.length }, value })
      } else {
        const item = this.value(flowText)
        if (item === null) return null
        items.push(item)
      }
      this.skipSpaces()
      if (this.text[this.at] === ',') {
        this.at += 1
        this.skipSpaces()
      } else if (this.text[this.at] !== closing) return null
    }
    this.at += 1
    const end = this.base + this.at
    return opening === '{' ? { kind: 'mapping', entries, start, end } : { kind: 'list', items, start, end }
  }
}
