/** What a text was made into, and which characters the fonts cannot show. */
export interface Printable<Value> {
  readonly value: Value
  /** Code points, ascending. */
  readonly missing: readonly number[]
}

/** Nothing of it can be composed, hidden or missing. */
const plainAscii = /^[\t\n\r\x20-\x7E]*$/
const replacement = '\uFFFD'
/** Marks that have no shape of their own: dropped. */
const invisible = /\u00AD|\u200B|\u200C|\u200D|\u2060|\uFE0E|\uFE0F|\uFEFF/g
/** Marks that turn the reading order of what follows: never obeyed, always shown. */
const turning = /[\u061C\u200E\u200F\u202A-\u202E\u2066-\u2069]/g
// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
const control = /[\u0000-\u0008\u000B\u000C\u000E-\u001F\u007F-\u009F]/g

/**
 * Every string of plain data made fit for print: normalised (NFC), and each control character, each mark that
 * reorders text and each character that the fonts lack shown as a replacement sign.
 */
export function printable<Value>(value: Value, shows: (codePoint: number) => boolean): Printable<Value> {
  const missing = new Set<number>()
  const clean = (text: string): string => {
    if (plainAscii.test(text)) return text
    const plain = text
      .normalize('NFC')
      .replace(invisible, '')
      .replace(turning, replacement)
      .replace(control, replacement)
    let out = ''
    for (const sign of plain) {
      const codePoint = sign.codePointAt(0) ?? 0
      const kept = codePoint === 9 || codePoint === 10 || codePoint === 13 || shows(codePoint)
      if (!kept) missing.add(codePoint)
      out += kept ? sign : replacement
    }
    return out
  }
  return { value: mapStrings(value, clean) as Value, missing: [...missing].sort((one, other) => one - other) }
}

/** What needs no change is handed on as it is: of a long sheet, nearly all. */
function mapStrings(value: unknown, clean: (text: string) => string): unknown {
  if (typeof value === 'string') return clean(value)
  if (Array.isArray(value)) {
    let out: unknown[] | null = null
    for (let index = 0; index < value.length; index += 1) {
      const mapped = mapStrings(value[index], clean)
      if (mapped === value[index]) continue
      out ??= [...value]
      out[index] = mapped
    }
    return out ?? value
  }
  if (value === null || typeof value !== 'object') return value
  const entries = value as Readonly<Record<string, unknown>>
  let out: Record<string, unknown> | null = null
  // Plain data: all that is in it is its own.
  for (const key in entries) {
    const each = entries[key]
    const mapped = mapStrings(each, clean)
    if (mapped === each) continue
    out ??= { ...entries }
    out[key] = mapped
  }
  return out ?? value
}
