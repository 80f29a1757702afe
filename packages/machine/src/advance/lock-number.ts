/**
 * What is written on a padlock, as far as it tells one padlock from another: width and shape of the letters, capitals,
 * blanks, characters that do not show and leading zeros tell nothing. Empty: nothing is written.
 */
export function lockNumber(written: string): string {
  return written
    .normalize('NFKC')
    .toUpperCase()
    .toLowerCase()
    .normalize('NFKC')
    .replace(/[\s\p{Cc}\p{Cf}]/gu, '')
    .replace(/(?<!\d)0+(?=\d)/g, '')
}

/** Whether two numbers are those of one padlock. */
export function isSameLock(one: string, other: string): boolean {
  return lockNumber(one) === lockNumber(other)
}
