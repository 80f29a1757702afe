/** RFC 3339 with its offset; the day must exist. */
export function isTime(text: string): boolean {
  const match = /^(\d{4})-(\d\d)-(\d\d)[Tt]\d\d:\d\d:\d\d(?:\.\d{1,9})?(?:[Zz]|[+-]\d\d:\d\d)$/.exec(text)
  if (match === null || Number.isNaN(Date.parse(text))) return false
  const [, year = '', month = '', day = ''] = match
  return Number(day) <= new Date(Date.UTC(Number(year), Number(month), 0)).getUTCDate()
}
