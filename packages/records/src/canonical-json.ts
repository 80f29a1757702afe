import canonicalize from 'canonicalize'

/** Deeper than anything the records hold; a hostile file must not exhaust the stack. */
const deepest = 64

/**
 * The one spelling of a JSON value: RFC 8785. Throws where the value has none (undefined, a class instance, NaN,
 * half a surrogate pair): what reaches this was checked before, so that is a bug.
 */
export function canonicalJson(value: unknown): string {
  const why = notJson(value, 0)
  if (why !== null) throw new TypeError(`Not a JSON value: ${why}`)
  return canonicalize(value) as string
}

/** Why the value has no canonical form; null: it has one. */
export function notJson(value: unknown, depth = 0): string | null {
  if (depth > deepest) return `nested more than ${deepest} levels deep`
  if (value === null || typeof value === 'boolean') return null
  if (typeof value === 'number') return Number.isFinite(value) ? null : `the number ${value}`
  if (typeof value === 'string') return holdsHalfCharacter(value) ? 'a text that holds half a surrogate pair' : null
  if (Array.isArray(value)) return firstFault(value, depth)
  if (typeof value !== 'object') return `a value of type ${typeof value}`
  const prototype = Object.getPrototypeOf(value)
  if (prototype !== Object.prototype && prototype !== null) return 'an object that is more than data'
  const badName = Object.keys(value).find(holdsHalfCharacter)
  if (badName !== undefined) return 'a name that holds half a surrogate pair'
  return firstFault(Object.values(value), depth)
}

/** Answers at once for a text of Latin letters, which is nearly every one. */
const anySurrogate = /[\uD800-\uDFFF]/

/** With the `u` flag a surrogate matches only where it stands alone. */
export function holdsHalfCharacter(text: string): boolean {
  return anySurrogate.test(text) && /\p{Surrogate}/u.test(text)
}

function firstFault(values: readonly unknown[], depth: number): string | null {
  for (const value of values) {
    const why = notJson(value, depth + 1)
    if (why !== null) return why
  }
  return null
}

/** The value of a text that is in canonical form to the last character; else why not. */
export function readCanonical(text: string): { readonly value: unknown } | { readonly fault: string } {
  let value: unknown
  try {
    value = JSON.parse(text)
  } catch {
    return { fault: 'it is not JSON' }
  }
  if (isPlainlyCanonical(value, text)) return { value }
  const why = notJson(value)
  if (why !== null) return { fault: `it holds ${why}` }
  return canonicalize(value) === text ? { value } : { fault: 'it is not in the canonical form of RFC 8785' }
}

/**
 * The common case, told without sorting anything: RFC 8785 is `JSON.stringify` with the names of each object in order of
 * their UTF-16 code units. False says nothing; a text that escapes half a character is left to the whole check.
 */
function isPlainlyCanonical(value: unknown, text: string): boolean {
  return inOrder(value, 0) && JSON.stringify(value) === text && !/\\u[dD][89a-fA-F]/.test(text)
}

function inOrder(value: unknown, depth: number): boolean {
  if (typeof value !== 'object' || value === null) return true
  if (depth > deepest) return false
  if (Array.isArray(value)) return value.every((one) => inOrder(one, depth + 1))
  let before: string | null = null
  for (const name of Object.keys(value)) {
    if (before !== null && name <= before) return false
    if (!inOrder((value as Record<string, unknown>)[name], depth + 1)) return false
    before = name
  }
  return true
}
