const signs = '0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ'

/**
 * Check character of a text of digits and capital letters: ISO/IEC 7064, MOD 37,36 (hybrid system). It finds every single
 * wrong character and nearly every exchange of two neighbours.
 */
export function checkCharacter(text: string): string {
  return signs.charAt((37 - sumOf(text)) % 36)
}

/** Whether the last character of the text is the check character of what stands before it. */
export function hasCheckCharacter(text: string): boolean {
  return /^[0-9A-Z]{2,}$/.test(text) && checkCharacter(text.slice(0, -1)) === text.at(-1)
}

function sumOf(text: string): number {
  let product = 36
  for (const sign of text) {
    const sum = (product + signs.indexOf(sign)) % 36
    product = ((sum === 0 ? 36 : sum) * 2) % 37
  }
  return product
}
