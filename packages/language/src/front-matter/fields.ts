import { type Dimension, parseQuantity, type Quantity } from '@lockwright/energy'
import { type Faults, oneOf, quoted } from '../faults.js'
import { hiddenCharacter } from '../hidden-characters.js'
import { mendWord } from '../names.js'
import { nearestKeys } from '../nearest.js'
import type { Place } from '../place.js'
import type { SourceText } from '../source-text.js'
import { dimensionWords } from './dimension-words.js'
import { exampleOf, explainQuantity, mendComma } from './explain-quantity.js'
import type { YamlEntry, YamlMapping, YamlNode } from './yaml-tree.js'

/** A piece of text and where it stands. */
export interface Written {
  readonly text: string
  readonly place: Place
}

class WrittenNode implements Written {
  readonly text: string
  private readonly node: YamlNode
  private readonly source: SourceText

  constructor(text: string, node: YamlNode, source: SourceText) {
    this.text = text
    this.node = node
    this.source = source
  }

  /** Few places are ever asked for. */
  get place(): Place {
    return this.source.place(this.node.start, this.node.end)
  }
}

interface Entry {
  readonly key: Written
  readonly value: YamlNode | undefined
}

/**
 * One mapping of the front matter, read key by key. Every method reports what is wrong, at the smallest place, and
 * answers undefined (or an empty list) where nothing usable is written.
 */
export class Fields {
  private readonly source: SourceText
  private readonly faults: Faults
  /** What it declares, for messages: `the source `mains``. */
  private readonly owner: string
  /** What names it: the key before it, or all of it. */
  readonly place: Place
  private readonly entries = new Map<string, Entry>()

  /** `known` lists its keys; without it the keys are names. */
  constructor(
    source: SourceText,
    faults: Faults,
    map: YamlMapping,
    owner: string,
    place: Place,
    known?: readonly string[]
  ) {
    this.source = source
    this.faults = faults
    this.owner = owner
    this.place = place
    let before: YamlEntry | undefined
    for (const entry of map.entries) {
      if (before !== undefined && this.isCutAtComma(before, entry)) this.joinAtComma(before, entry)
      else this.enter(entry.key, entry.value, known)
      before = entry
    }
  }

  /** `{ height: 3,5 m }`: in braces a decimal comma ends the value, and the rest of the number is a key without a value. */
  private isCutAtComma({ value }: YamlEntry, { key, value: none }: YamlEntry): boolean {
    return (
      none === undefined &&
      value?.kind === 'text' &&
      key.kind === 'text' &&
      /^\d/.test(key.text) &&
      /\d$/.test(value.text) &&
      this.source.text.slice(value.end, key.start) === ','
    )
  }

  private joinAtComma({ key, value }: YamlEntry, { key: rest }: YamlEntry): void {
    const name = key.kind === 'text' ? key.text : ''
    const start = value?.start ?? rest.start
    const text = this.source.text.slice(start, rest.end)
    this.faults.add(
      'bad-value',
      this.source.place(start, rest.end),
      `${quoted(name)} is ${quoted(text)}: the comma ends the value here, and only a point parts decimals.`,
      mendComma(text, `${name}: `)
    )
    const entry = this.entries.get(name)
    if (entry === undefined) return
    const whole: YamlNode = { kind: 'text', text: text.replace(',', '.'), start, end: rest.end }
    this.entries.set(name, { key: entry.key, value: whole })
  }

  private enter(node: YamlNode, value: YamlNode | undefined, known: readonly string[] | undefined): void {
    const key = this.written(node, 'A key')
    if (key === undefined) return
    const other = this.entries.get(key.text)
    if (other !== undefined) {
      this.faults.add(
        'duplicate-key',
        key.place,
        `${quoted(key.text)} is written twice in ${this.owner}.`,
        'Take one of the two out.',
        [{ place: other.key.place, note: 'Here it is written first.' }]
      )
      return
    }
    this.entries.set(key.text, { key, value })
    if (known === undefined || known.includes(key.text)) return
    const near = nearestKeys(key.text, known)
    const mend =
      near.length > 0 ? `Write ${oneOf(near)}, or take it out.` : `Take it out; ${this.owner} takes ${oneOf(known)}.`
    this.faults.add('unknown-key', key.place, `${quoted(key.text)} is not a key of ${this.owner}.`, mend)
  }

  has(key: string): boolean {
    return this.entries.has(key)
  }

  /** The keys in the order in which they are written. */
  keys(): readonly Written[] {
    return [...this.entries.values()].map(({ key }) => key)
  }

  placeOfKey(key: string): Place {
    return this.entries.get(key)?.key.place ?? this.place
  }

  placeOfValue(key: string): Place {
    const value = this.value(key)
    return value === undefined ? this.placeOfKey(key) : this.placeOf(value)
  }

  private placeOf({ start, end }: YamlNode): Place {
    return this.source.place(start, end)
  }

  reportMissing(key: string, what = `${quoted(key)} is missing in ${this.owner}.`): undefined {
    this.faults.add('missing-key', this.place, what, `Add ${quoted(`${key}:`)} to it.`)
  }

  private bad(key: string, what: string, mend: string, place = this.placeOfValue(key)): undefined {
    this.faults.add('bad-value', place, what, mend)
  }

  private value(key: string): YamlNode | undefined {
    return this.entries.get(key)?.value
  }

  /** A node as one line of text; empty text is reported. */
  private written(node: YamlNode, what: string): Written | undefined {
    if (node.kind !== 'text') {
      this.faults.add(
        'bad-value',
        this.placeOf(node),
        `${what} should be plain text, and here is a ${node.kind}.`,
        'Write one value, in quotes if it begins with a bracket or a brace.'
      )
      return undefined
    }
    if (hiddenCharacter.test(node.text)) {
      const raw = hiddenCharacter.test(this.source.text.slice(node.start, node.end))
      if (!raw) {
        this.faults.add(
          'control-character',
          this.placeOf(node),
          `${what} holds a hidden control character.`,
          'Take the character out.'
        )
      }
      return undefined
    }
    const text = node.text.replace(/\s+/g, ' ').trim()
    if (text !== '') return new WrittenNode(text, node, this.source)
    this.faults.add('bad-value', this.placeOf(node), `${what} is empty.`, 'Write the value, or take the key out.')
    return undefined
  }

  text(key: string): string | undefined {
    return this.textAt(key)?.text
  }

  requiredText(key: string): string {
    if (!this.has(key)) this.reportMissing(key)
    return this.text(key) ?? ''
  }

  textAt(key: string): Written | undefined {
    const entry = this.entries.get(key)
    if (entry === undefined) return undefined
    if (entry.value === undefined)
      return this.bad(key, `${quoted(key)} has no value.`, 'Write the value, or take the key out.')
    return this.written(entry.value, quoted(key))
  }

  /** One or several names: a list, or names separated by spaces. */
  names(key: string): readonly Written[] {
    const node = this.value(key)
    if (node === undefined || node.kind !== 'list') {
      const written = this.textAt(key)
      if (written === undefined) return []
      const parts = written.text.split(' ')
      return parts.map((text) => ({ text, place: written.place }))
    }
    if (node.items.length === 0)
      this.bad(key, `${quoted(key)} is an empty list.`, 'Write at least one name, or take the key out.')
    return node.items.flatMap((item) => this.written(item, `A name in ${quoted(key)}`) ?? [])
  }

  word<Word extends string>(key: string, words: readonly Word[]): Word | undefined {
    const written = this.textAt(key)
    if (written === undefined) return undefined
    const found = words.find((word) => word === written.text)
    if (found !== undefined) return found
    return this.bad(key, `${quoted(key)} cannot be ${quoted(written.text)}.`, mendWord(written.text, words))
  }

  flag(key: string): boolean | undefined {
    const word = this.word(key, ['true', 'false'])
    return word === undefined ? undefined : word === 'true'
  }

  /** A whole number of at least one. */
  whole(key: string): number | undefined {
    const written = this.textAt(key)
    if (written === undefined) return undefined
    if (/^[1-9]\d{0,8}$/.test(written.text)) return Number(written.text)
    return this.bad(
      key,
      `${quoted(key)} is ${quoted(written.text)}, which is not a whole number above zero.`,
      'Write a whole number such as `1`.'
    )
  }

  quantity(key: string, dimensions: readonly Dimension[]): Quantity | undefined {
    const written = this.textAt(key)
    if (written === undefined) return undefined
    const parsed = parseQuantity(written.text)
    if (!parsed.ok) {
      const { what, mend } = explainQuantity(written.text, parsed.why, dimensions)
      return this.bad(key, what, mend)
    }
    if (dimensions.length === 0 || dimensions.includes(parsed.value.dimension)) return parsed.value
    const wanted = dimensions.map((dimension) => dimensionWords[dimension]).join(' or ')
    return this.bad(
      key,
      `${quoted(key)} is ${quoted(written.text)}, which is ${dimensionWords[parsed.value.dimension]}, not ${wanted}.`,
      `Write ${wanted}, such as ${exampleOf(dimensions)}.`
    )
  }

  /** A mapping under a key; `known` as in the constructor. */
  map(key: string, owner: string, known?: readonly string[]): Fields | undefined {
    const node = this.value(key)
    if (!this.has(key)) return undefined
    if (node === undefined || node.kind !== 'mapping') {
      return this.bad(
        key,
        `${quoted(key)} should be a mapping of keys to values.`,
        `Write it as \`${key}: { key: value }\`, or with its keys indented on the next lines.`
      )
    }
    return new Fields(this.source, this.faults, node, owner, this.placeOfKey(key), known)
  }

  /** A list of mappings under a key. */
  maps(key: string, owner: string, known: readonly string[]): readonly Fields[] {
    const node = this.value(key)
    if (!this.has(key)) return []
    if (node === undefined || node.kind !== 'list') {
      this.bad(key, `${quoted(key)} should be a list.`, `Write it as \`${key}: [{ key: value }]\`.`)
      return []
    }
    return node.items.flatMap((item) => {
      if (item.kind === 'mapping') return new Fields(this.source, this.faults, item, owner, this.placeOf(item), known)
      const where = this.placeOf(item)
      this.bad(key, `${quoted(key)} should be a list of mappings.`, `Write it as \`${key}: [{ key: value }]\`.`, where)
      return []
    })
  }
}
