/** What is used of a reference of the PDF library; its class has no name outside it. */
interface Reference {
  readonly id: number
  readonly gen: number
  readonly data: object
  readonly buffer: { readonly length: number }
  offset: number
  finalize(): void
}

interface ReferringDocument {
  ref(data?: object): Reference
  readonly _offset: number
  _write(data: string): void
  _refEnd(reference: Reference): void
}

/**
 * Writes the dictionaries of a document without the detours of the library: a long sheet has ten thousand of them, for its
 * structure and its fields, and nothing in most but names, numbers, texts and references. The rest, and every stream,
 * is left to the library.
 */
export function quickReferences(document: unknown): void {
  const open = document as ReferringDocument
  const refer = open.ref.bind(open)
  let slowly: (() => void) | null = null
  // One function for all of them: ten thousand would have to be collected.
  function finalize(this: Reference): void {
    const written = this.buffer.length > 0 ? null : dictionaryOf(this.data)
    if (written === null) {
      slowly?.call(this)
      return
    }
    this.offset = open._offset
    open._write(`${this.id} ${this.gen} obj\n${written}\nendobj`)
    open._refEnd(this)
  }
  open.ref = (data) => {
    const reference = refer(data)
    slowly ??= reference.finalize
    reference.finalize = finalize
    return reference
  }
}

/** A value as ISO 32000-1, 7.3 spells it; null where it is not of the plain kinds. */
function spelled(value: unknown): string | null {
  switch (typeof value) {
    case 'string':
      return `/${value}`
    case 'number':
      return Math.abs(value) < 1e15 ? String(Math.round(value * 1e6) / 1e6) : null
    case 'boolean':
      return String(value)
    case 'object':
      if (value === null) return 'null'
      if (value instanceof String) return textOf(String(value))
      if (Array.isArray(value)) return arrayOf(value)
      if (value.constructor === Object) return dictionaryOf(value)
      return isReference(value) ? `${value.id} ${value.gen} R` : null
    default:
      return null
  }
}

function dictionaryOf(value: object): string | null {
  if (value.constructor !== Object) return null
  const entries = value as Readonly<Record<string, unknown>>
  let written = '<<'
  for (const key in entries) {
    const each = entries[key]
    if (each === undefined) continue
    const told = spelled(each)
    if (told === null) return null
    written += `\n/${key} ${told}`
  }
  return `${written}\n>>`
}

function arrayOf(values: readonly unknown[]): string | null {
  let written = ''
  for (const each of values) {
    const told = spelled(each)
    if (told === null) return null
    written += written === '' ? told : ` ${told}`
  }
  return `[${written}]`
}

/** Texts of ASCII without a sign that has to be escaped. */
const plain = /^[\x20-\x27\x2A-\x5B\x5D-\x7E]*$/

function textOf(text: string): string | null {
  return plain.test(text) ? `(${text})` : null
}

function isReference(value: object): value is Pick<Reference, 'id' | 'gen'> {
  return 'gen' in value && 'id' in value && typeof value.id === 'number' && 'finalize' in value
}
