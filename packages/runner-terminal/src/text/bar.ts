/** A bar of so many columns, filled up to a share between 0 and 1: `[#####-----]`. Readable without colour. */
export function bar(share: number, columns: number): string {
  const room = Math.max(1, columns - 2)
  const filled = Math.min(room, Math.max(0, Math.floor(share * room)))
  return `[${'#'.repeat(filled)}${'-'.repeat(room - filled)}]`
}
