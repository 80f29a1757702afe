import { isAlias, isMap, isScalar, isSeq, type ParsedNode, parseDocument } from 'yaml'
import { curlyQuote } from '../directive-line.js'
import type { Faults } from '../faults.js'
import { LIMITS } from '../scan/limits.js'
import type { SourceText } from '../source-text.js'
import type { FrontMatterText } from './find-front-matter.js'
import { readPlainYaml } from './read-plain-yaml.js'
import type { YamlEntry, YamlMapping, YamlNode } from './yaml-tree.js'

// Far more than front matter needs, and little enough for a parser that calls itself at each level.
const deepest = 64
const widestIndent = 200

/** Parses the front matter; undefined, with faults, where it is no mapping or its syntax is broken. */
export function readYaml(source: SourceText, { start, end }: FrontMatterText, faults: Faults): YamlMapping | undefined {
  const text = source.text.slice(start, end)
  return readPlainYaml(text, start) ?? readAnyYaml(text, start, source, faults)
}

/** The whole of YAML, by the library. */
export function readAnyYaml(text: string, start: number, source: SourceText, faults: Faults): YamlMapping | undefined {
  const deep = depthTrouble(text)
  if (deep !== undefined) {
    faults.add(
      'too-deep',
      source.place(start + deep, start + deep + 1),
      'The front matter is nested too deeply here.',
      'Write it as the language describes it: no key is more than six levels deep.'
    )
    return undefined
  }
  const document = parseDocument(text, {
    schema: 'failsafe',
    uniqueKeys: false,
    prettyErrors: false,
    logLevel: 'silent'
  })
  const troubles = [...document.errors, ...document.warnings]
  for (const { message, pos } of troubles) {
    faults.add(
      'broken-yaml',
      source.place(start + pos[0], start + Math.max(pos[0], pos[1])),
      `The front matter cannot be read here: ${sentence(message)}`,
      `Write it as YAML: \`key: value\`, lists in \`[ ]\`, and text that holds \`: \` or begins with a sign in quotes.${
        curlyQuote.test(lineAround(text, pos[0])) ? ' Curly quotes are no quotes here: write plain ones, `"`.' : ''
      }`
    )
  }
  if (troubles.length > 0) return undefined
  const { contents } = document
  if (contents === null) {
    faults.add(
      'broken-yaml',
      source.place(start, start + text.length),
      'The front matter is empty.',
      'Declare the machine here: `procedure`, `title`, `revision`, `equipment`, `scope` and `energy`.'
    )
    return undefined
  }
  const converter = new Converter(start)
  const tree = converter.convert(contents)
  if (converter.tooMany !== undefined) {
    faults.add(
      'broken-yaml',
      source.place(converter.tooMany.start, converter.tooMany.end),
      `There are more than ${LIMITS.aliases} aliases in the front matter.`,
      'Write the values out.'
    )
    return undefined
  }
  if (tree.kind === 'mapping') return tree
  faults.add(
    'broken-yaml',
    source.place(tree.start, tree.end),
    'The front matter is not a list of keys with values.',
    'Write each declaration as `key: value`.'
  )
  return undefined
}

function lineAround(text: string, offset: number): string {
  const end = text.indexOf('\n', offset)
  return text.slice(text.lastIndexOf('\n', offset - 1) + 1, end < 0 ? undefined : end)
}

function sentence(message: string): string {
  const first = message.split('\n')[0] ?? ''
  return /[.?]$/.test(first) ? first : `${first}.`
}

/** Offset of the first character that stands deeper than the YAML parser may be led; undefined where none does. */
function depthTrouble(text: string): number | undefined {
  let flow = 0
  for (let offset = 0; offset < text.length; offset += 1) {
    const character = text[offset]
    if (character === '[' || character === '{') flow += 1
    else if ((character === ']' || character === '}') && flow > 0) flow -= 1
    if (flow > deepest) return offset
  }
  for (const match of text.matchAll(/^ *(?:[-?:][ \t]+)*/gm)) {
    const [lead] = match
    if (lead.length > widestIndent && text[match.index + lead.length] !== '#') return match.index
  }
  return undefined
}

/** Makes our tree of the library's. What an alias stands for is shared, so that no bomb of aliases goes off. */
class Converter {
  /** The first alias beyond those allowed. */
  tooMany: YamlNode | undefined
  private readonly base: number
  private readonly anchors = new Map<string, YamlNode>()
  private aliases = 0

  constructor(base: number) {
    this.base = base
  }

  convert(node: ParsedNode): YamlNode {
    const converted = this.read(node)
    if (!isAlias(node) && node.anchor !== undefined) this.anchors.set(node.anchor, converted)
    return converted
  }

  private read(node: ParsedNode): YamlNode {
    const start = this.base + node.range[0]
    const end = this.base + node.range[1]
    if (isAlias(node)) {
      const alias: YamlNode = { kind: 'text', text: '', start, end }
      this.aliases += 1
      if (this.aliases > LIMITS.aliases) this.tooMany ??= alias
      // An anchor that is not set yet stands around the alias itself: such a node has no end.
      return { ...(this.anchors.get(node.source) ?? alias), start, end }
    }
    if (isMap(node)) {
      const entries = node.items.map(
        ({ key, value }): YamlEntry => ({
          key: this.convert(key as ParsedNode),
          value: value === null ? undefined : this.written(this.convert(value as ParsedNode))
        })
      )
      const last = entries.at(-1)
      return {
        kind: 'mapping',
        entries,
        start,
        end: node.flow === true ? end : ((last?.value ?? last?.key)?.end ?? end)
      }
    }
    if (isSeq(node)) {
      const items = node.items.map((item) => this.convert(item as ParsedNode))
      return { kind: 'list', items, start, end: node.flow === true ? end : (items.at(-1)?.end ?? end) }
    }
    return { kind: 'text', text: isScalar(node) && typeof node.value === 'string' ? node.value : '', start, end }
  }

  /** A value of no characters at all is none. */
  private written(node: YamlNode): YamlNode | undefined {
    return node.kind === 'text' && node.start === node.end ? undefined : node
  }
}
