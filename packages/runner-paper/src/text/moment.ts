/** An RFC 3339 time as it is printed, in UTC and without a locale: `2026-01-05 10:00 UTC`. Other text stays as it is. */
export function moment(at: string): string {
  const time = new Date(at)
  if (Number.isNaN(time.getTime())) return at
  const text = time.toISOString()
  return `${text.slice(0, 10)} ${text.slice(11, 16)} UTC`
}
