/** Columns that a visible text takes on a terminal. */
export function columnsOf(text: string): number {
  let columns = 0
  for (const character of text) columns += columnsOfCharacter(character)
  return columns
}

/** 0 for marks and joiners, 2 for wide characters, else 1. */
export function columnsOfCharacter(character: string): 0 | 1 | 2 {
  const code = character.codePointAt(0) ?? 0
  if (code < 0x300) return 1
  if (noWidth.test(character)) return 0
  return wide.test(character) ? 2 : 1
}

/** The text cut to a width; what was cut shows as `…`. */
export function fit(text: string, width: number): string {
  if (width <= 0) return ''
  if (columnsOf(text) <= width) return text
  let columns = 0
  let kept = ''
  for (const character of text) {
    columns += columnsOfCharacter(character)
    if (columns > width - 1) break
    kept += character
  }
  return `${kept}…`
}

/** Cut or filled up with spaces to exactly this width. */
export function pad(text: string, width: number): string {
  const fitted = fit(text, width)
  return fitted + ' '.repeat(Math.max(0, width - columnsOf(fitted)))
}

const noWidth = /[\p{M}\u200c\u200d]/u

// Unicode Standard Annex 11: the wide blocks, and characters shown as pictures by default.
const wide =
  /[\u1100-\u115f\u2e80-\u303e\u3041-\u33ff\u3400-\u4dbf\u4e00-\u9fff\ua000-\ua4cf\ua960-\ua97f\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe6f\uff00-\uff60\uffe0-\uffe6\u{1f300}-\u{1faff}\u{20000}-\u{3fffd}]|\p{Emoji_Presentation}/u
