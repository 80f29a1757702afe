import { type Dimension, parseQuantity, type Quantity } from '@lockwright/energy'
import type { AttributeSpecification, AttributeValue } from '../directive-specification.js'
import { quoted } from '../faults.js'
import { dimensionWords } from '../front-matter/dimension-words.js'
import { exampleOf, explainQuantity } from '../front-matter/explain-quantity.js'
import type { Axis } from '../front-matter.js'
import type { ItemId } from '../ids.js'
import { mendName, mendWord, type Named, type Sort } from '../names.js'
import type { Place } from '../place.js'
import type { BodyContext } from './context.js'

/** One attribute as it is used; without a specification it is `#id` or the axis of an `only`. */
export interface Attribute {
  readonly specification: AttributeSpecification | undefined
  readonly value: string
  readonly place: Place
  readonly valuePlace: Place
}

const sortsOf: Readonly<Partial<Record<string, readonly Sort[]>>> = {
  points: ['point'],
  sources: ['source'],
  restraints: ['restraint'],
  equipment: ['tool', 'part'],
  parts: ['part'],
  protection: ['wear'],
  role: ['role'],
  step: ['step', 'sign-off', 'choice'],
  'sign-offs': ['sign-off'],
  section: ['section']
}

const oneName: readonly AttributeValue[] = ['role', 'step', 'section', 'axis']

/** The attributes of one directive. Every method reports what is wrong with the value, at its own place. */
export class Attributes {
  private readonly found: ReadonlyMap<string, Attribute>
  private readonly context: BodyContext

  constructor(found: ReadonlyMap<string, Attribute>, context: BodyContext) {
    this.found = found
    this.context = context
  }

  has(name: string): boolean {
    return this.found.has(name)
  }

  place(name: string): Place | undefined {
    return this.found.get(name)?.place
  }

  /** The attributes that are no fixed ones: axes, on `only`. */
  axisNames(): readonly string[] {
    return [...this.found]
      .filter(([name, attribute]) => attribute.specification === undefined && name !== '#')
      .map(([name]) => name)
  }

  id(): { readonly text: string; readonly place: Place } | undefined {
    const attribute = this.found.get('#')
    return attribute === undefined ? undefined : { text: attribute.value, place: attribute.place }
  }

  private filled(name: string): Attribute | undefined {
    const attribute = this.found.get(name)
    return attribute === undefined || attribute.value.trim() === '' ? undefined : attribute
  }

  private bad(attribute: Attribute, what: string, mend: string): undefined {
    this.context.faults.add('bad-value', attribute.valuePlace, what, mend)
  }

  text(name: string): string | undefined {
    return this.filled(name)?.value.replace(/\s+/g, ' ').trim()
  }

  /** The names in a value, each with its own place. */
  private written(name: string): readonly { readonly text: string; readonly place: Place }[] {
    const attribute = this.filled(name)
    if (attribute === undefined) return []
    const { value, valuePlace } = attribute
    // A value with character references has no places of its own inside.
    const exact = valuePlace.end.offset - valuePlace.start.offset === value.length
    return [...value.matchAll(/\S+/g)].map(({ 0: text, index }) => ({
      text,
      place: exact ? within(valuePlace, index, index + text.length) : valuePlace
    }))
  }

  /** What the names of an attribute name, as far as they are of the right sort. */
  names(name: string): readonly Named[] {
    const value = this.found.get(name)?.specification?.value
    const sorts = (typeof value === 'string' ? sortsOf[value] : undefined) ?? []
    const written = this.written(name)
    if (value !== undefined && oneName.includes(value) && written.length > 1) {
      const attribute = this.filled(name)
      if (attribute !== undefined)
        this.bad(attribute, `${quoted(name)} takes one name, and here are ${written.length}.`, 'Write one name.')
    }
    const seen = new Set<string>()
    return written.flatMap(({ text, place }) => {
      if (seen.has(text)) {
        this.context.faults.add('bad-value', place, `${quoted(text)} is named twice.`, 'Take one of the two out.')
        return []
      }
      seen.add(text)
      return this.context.names.find(text, sorts, place) ?? []
    })
  }

  /** The ids of an attribute's names; the caller's type says what the specification's sort makes of them. */
  ids<Id extends string>(name: string): readonly Id[] {
    return this.names(name).map((named) => named.name as Id)
  }

  /** The names of tools, parts and protective items that these attributes name, each where it stands. */
  items(names: readonly string[]): readonly { readonly id: ItemId; readonly place: Place }[] {
    return names.flatMap((name) => {
      const value = this.found.get(name)?.specification?.value
      if (value !== 'equipment' && value !== 'protection' && value !== 'parts') return []
      return this.written(name)
        .filter(({ text }) => itemSorts.has(this.context.names.get(text)?.sort))
        .map(({ text, place }) => ({ id: text as ItemId, place }))
    })
  }

  axis(name: string): Axis | undefined {
    const [first] = this.written(name)
    const attribute = this.filled(name)
    if (first === undefined || attribute === undefined) return undefined
    const { axes } = this.context.head
    const text = attribute.value.trim()
    const found = axes.find(({ id }) => id === text)
    if (found === undefined && !this.context.names.incomplete) {
      this.context.faults.add(
        'unknown-name',
        attribute.valuePlace,
        `There is no hardware axis ${quoted(text)}.`,
        mendName(
          text,
          axes.map(({ id }) => id)
        )
      )
    }
    return found
  }

  axisValues(name: string, axis: Axis | undefined): readonly Axis['values'][number]['id'][] {
    if (axis === undefined) return []
    return this.written(name).flatMap(({ text, place }) => {
      const found = axis.values.find(({ id }) => id === text)
      if (found !== undefined) return found.id
      this.context.faults.add(
        'unknown-name',
        place,
        `${quoted(text)} is not a generation on the axis ${quoted(axis.id)}.`,
        mendName(
          text,
          axis.values.map(({ id }) => id)
        )
      )
      return []
    })
  }

  word<Word extends string>(name: string): Word | undefined {
    const attribute = this.filled(name)
    const value = attribute?.specification?.value
    if (attribute === undefined || typeof value !== 'object') return undefined
    if (value.words.includes(attribute.value)) return attribute.value as Word
    return this.bad(
      attribute,
      `${quoted(name)} cannot be ${quoted(attribute.value)}.`,
      mendWord(attribute.value, value.words)
    )
  }

  flag(name: string): boolean {
    const attribute = this.found.get(name)
    if (attribute === undefined) return false
    if (attribute.value !== '' && attribute.value !== 'true')
      this.bad(attribute, `${quoted(name)} takes no value.`, `Write ${quoted(name)} alone.`)
    return true
  }

  /** A plain number; `low` and `high` are the ends of what makes sense. */
  number(name: string, low = Number.NEGATIVE_INFINITY, high = Number.POSITIVE_INFINITY): number | undefined {
    const attribute = this.filled(name)
    if (attribute === undefined) return undefined
    const text = attribute.value.trim().replace('−', '-')
    if (!/^[-+]?\d{1,15}(?:\.\d{1,15})?$/.test(text)) {
      return this.bad(
        attribute,
        `${quoted(name)} is ${quoted(attribute.value)}, which is not a plain number.`,
        'Write digits with a decimal point and no unit.'
      )
    }
    const number = Number(text)
    if (number >= low && number <= high) return number
    return this.bad(
      attribute,
      `${quoted(name)} is ${quoted(attribute.value)}, which is out of its range.`,
      high === Number.POSITIVE_INFINITY
        ? `Write a number from ${low} upwards.`
        : `Write a number from ${low} to ${high}.`
    )
  }

  quantity(name: string, dimensions: readonly Dimension[] = []): Quantity | undefined {
    const attribute = this.filled(name)
    return attribute === undefined ? undefined : this.parsed(attribute, name, attribute.value, dimensions)
  }

  private parsed(
    attribute: Attribute,
    name: string,
    text: string,
    dimensions: readonly Dimension[]
  ): Quantity | undefined {
    const parsed = parseQuantity(text)
    if (!parsed.ok) {
      const { what, mend } = explainQuantity(text, parsed.why, dimensions)
      return this.bad(attribute, what, mend)
    }
    if (dimensions.length === 0 || dimensions.includes(parsed.value.dimension)) return parsed.value
    const wanted = dimensions.map((dimension) => dimensionWords[dimension]).join(' or ')
    return this.bad(
      attribute,
      `${quoted(name)} is ${quoted(text)}, which is ${dimensionWords[parsed.value.dimension]}, not ${wanted}.`,
      `Write ${wanted}, such as ${exampleOf(dimensions)}.`
    )
  }

  /** A time above zero. */
  time(name: string): Quantity | undefined {
    const quantity = this.quantity(name, ['time'])
    const attribute = this.filled(name)
    if (quantity === undefined || attribute === undefined || quantity.si > 0) return quantity
    return this.bad(attribute, `${quoted(name)} is ${quoted(attribute.value)}: no time at all.`, 'Write how long.')
  }

  /** `0 to 10 bar`: two ends of one dimension; the unit of the lower one may be left out. */
  range(name: string): { readonly low: Quantity; readonly high: Quantity } | undefined {
    const attribute = this.filled(name)
    if (attribute === undefined) return undefined
    const ends = /^(.*?)\s+to\s+(.*)$/.exec(attribute.value.trim())
    if (ends === null)
      return this.bad(
        attribute,
        `${quoted(name)} is ${quoted(attribute.value)}, which is not a range.`,
        'Write both ends: `0 to 10 bar`.'
      )
    const [, lowText = '', highText = ''] = ends
    const high = this.parsed(attribute, name, highText, [])
    if (high === undefined) return undefined
    const unit = highText.replace(/^[-+−]?[\d.]+\s*/, '')
    const low = this.parsed(attribute, name, /^[-+−]?[\d.]+$/.test(lowText) ? `${lowText} ${unit}` : lowText, [
      high.dimension
    ])
    if (low === undefined) return undefined
    if (low.si < high.si) return { low, high }
    return this.bad(
      attribute,
      `The lower end of ${quoted(attribute.value)} is not below the upper one.`,
      'Write the lower end first.'
    )
  }
}

const itemSorts: ReadonlySet<Sort | undefined> = new Set<Sort | undefined>(['tool', 'part', 'wear'])

/** A stretch inside a value, which stands on one line. */
function within({ file, start }: Place, from: number, to: number): Place {
  const point = (index: number): Place['start'] => ({
    line: start.line,
    column: start.column + index,
    offset: start.offset + index
  })
  return { file, start: point(from), end: point(to) }
}
