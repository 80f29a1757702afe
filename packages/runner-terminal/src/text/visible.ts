/**
 * Makes any text safe to write to a terminal and honest to read: what would steer the terminal, turn the reading
 * direction or take no room is shown as `<U+202E>`. A tab becomes one space, so that columns can be counted.
 * The result is one line and holds no control character; making it visible again changes nothing.
 */
export function visible(text: string): string {
  return text.replace(/\t/g, ' ').replace(hidden, (character, offset: number) => {
    if (isJoiner(character) && joinsLetters(text, offset)) return character
    return `<U+${(character.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}>`
  })
}

/** As `visible`, but line breaks part the text into lines. */
export function visibleLines(text: string): readonly string[] {
  return text.split(/\r\n|[\n\r]/).map(visible)
}

// Controls, formats (bidirectional overrides, zero-width marks, tags), lone surrogates, and the line and paragraph separators.
const hidden = /[\p{Cc}\p{Cf}\p{Cs}\u2028\u2029]/gu

function isJoiner(character: string): boolean {
  return character === '\u200c' || character === '\u200d'
}

/** Persian and several Indian scripts need joiners inside words; behind anything else they only hide something. */
function joinsLetters(text: string, offset: number): boolean {
  return /[^\p{ASCII}\P{L}]\p{M}*$/u.test(text.slice(Math.max(0, offset - 8), offset))
}
