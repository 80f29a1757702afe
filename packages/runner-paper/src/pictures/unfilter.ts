/**
 * Takes the filters off the rows of a PNG in place (ISO/IEC 15948, clause 9): each row is its filter's number and `stride`
 * bytes; `back` is how many bytes a pixel has, at least one. False where a filter is unknown.
 */
export function unfilter(rows: Uint8Array, stride: number, height: number, back: number): boolean {
  for (let y = 0; y < height; y += 1) {
    const at = y * (stride + 1)
    const filter = rows[at] ?? 0
    if (filter > 4) return false
    for (let x = 0; x < stride; x += 1) {
      const here = at + 1 + x
      const left = x < back ? 0 : (rows[here - back] ?? 0)
      const up = y === 0 ? 0 : (rows[here - stride - 1] ?? 0)
      const corner = x < back || y === 0 ? 0 : (rows[here - stride - 1 - back] ?? 0)
      rows[here] = (rows[here] ?? 0) + predicted(filter, left, up, corner)
    }
  }
  return true
}

function predicted(filter: number, left: number, up: number, corner: number): number {
  if (filter === 0) return 0
  if (filter === 1) return left
  if (filter === 2) return up
  if (filter === 3) return (left + up) >> 1
  const straight = left + up - corner
  const [toLeft, toUp, toCorner] = [Math.abs(straight - left), Math.abs(straight - up), Math.abs(straight - corner)]
  if (toLeft <= toUp && toLeft <= toCorner) return left
  return toUp <= toCorner ? up : corner
}
