const day = 86_400_000

/** The day (`YYYY-MM-DD`) so many days after another. */
export function daysAfter(from: string, days: number): string {
  return new Date(Date.parse(`${from.slice(0, 10)}T00:00:00Z`) + days * day).toISOString().slice(0, 10)
}

export function daysBefore(from: string, days: number): string {
  return daysAfter(from, -days)
}

/** Days of a duration of ISO 8601 in years, months, weeks and days, taken short: 365, 30, 7 and 1; null: it is none. */
export function daysOf(duration: string): number | null {
  const match = /^P(?:(\d+)Y)?(?:(\d+)M)?(?:(\d+)W)?(?:(\d+)D)?$/.exec(duration)
  if (match === null || duration === 'P') return null
  const [years = 0, months = 0, weeks = 0, days = 0] = match.slice(1).map((part) => Number(part ?? 0))
  return years * 365 + months * 30 + weeks * 7 + days
}
