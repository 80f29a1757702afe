const ranges = [
  // Control characters other than tabs and line endings: they could steer a terminal.
  '\\0-\\u0008\\u000b\\u000c\\u000e-\\u001f\\u007f-\\u009f',
  // Line and paragraph separators, and what changes the direction of reading (Unicode TR 36): a line would read
  // otherwise than it is.
  '\\u2028\\u2029\\u202a-\\u202e\\u2066-\\u2069',
  // A byte-order mark that is not the first character.
  '\\ufeff'
]

/** Characters that nobody sees and that no text needs. */
export const hiddenCharacter = new RegExp(`[${ranges.join('')}]`)

/** U+2028 as a reader finds it in a character table. */
export function codePointName(character: string): string {
  return `U+${(character.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}`
}
