/** English with `{1}`, `{2}` for what changes, and the same in another language. */
export type Phrase = readonly [english: string, told: string]

/**
 * A sentence that another package made in English, said as the first phrase that fits all of it; what fills its holes is
 * said in the same way, piece by piece. A sentence that no phrase fits stays as it is.
 */
export function rephrase(text: string, phrases: readonly Phrase[]): string {
  for (const [english, told] of phrases) {
    const found = patternOf(english).exec(text)
    if (found === null) continue
    return told.replace(/\{(\d)\}/g, (_, hole: string) => pieces(found[Number(hole)] ?? '', text, phrases))
  }
  return text
}

/** A hole can hold a list: each of its parts is tried by itself where the whole fits nothing. */
function pieces(hole: string, whole: string, phrases: readonly Phrase[]): string {
  if (hole === whole) return hole
  const told = rephrase(hole, phrases)
  if (told !== hole) return told
  const between = ['; ', ', '].find((each) => parts(hole, each).length > 1)
  return between === undefined
    ? hole
    : parts(hole, between)
        .map((part) => pieces(part, hole, phrases))
        .join(between)
}

/** Cut where the mark stands outside every bracket. */
function parts(text: string, between: string): readonly string[] {
  const found: string[] = ['']
  let depth = 0
  for (let at = 0; at < text.length; at += 1) {
    const sign = text[at] ?? ''
    if (sign === '(') depth += 1
    if (sign === ')') depth -= 1
    if (depth === 0 && text.startsWith(between, at)) {
      found.push('')
      at += between.length - 1
    } else found[found.length - 1] += sign
  }
  return found
}

const patterns = new Map<string, RegExp>()

function patternOf(english: string): RegExp {
  const known = patterns.get(english)
  if (known !== undefined) return known
  // What stands in brackets holds no brackets of its own, so that the last ones are found.
  const source = english
    .replace(/[.*+?^$()|[\]\\]/g, '\\$&')
    .replace(/\\\(\{\d\}/g, '\\(([^()]+?)')
    .replace(/\{\d\}/g, '(.+?)')
  const made = new RegExp(`^${source}$`, 's')
  patterns.set(english, made)
  return made
}
