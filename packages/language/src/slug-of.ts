/** The id of a section: its title in small letters, each run of other characters than letters and digits one hyphen. */
export function slugOf(title: string): string {
  return title
    .normalize('NFC')
    .toLowerCase()
    .replace(/[^\p{L}\p{M}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '')
}
