/** The middle value; of an even number of values the mean of the two in the middle. */
export function median(values) {
  const sorted = values.toSorted((one, other) => one - other)
  const middle = Math.floor(sorted.length / 2)
  return sorted.length % 2 === 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2
}
