/** The time on the wall for people: `14:32:10`, in this computer's zone or the one that is named. */
export function clockTime(at: string, timeZone?: string): string {
  return formatIn(timeZone).format(new Date(at))
}

/** Dear to make, and asked for with every line that holds a time. */
const formats = new Map<string | undefined, Intl.DateTimeFormat>()

function formatIn(timeZone: string | undefined): Intl.DateTimeFormat {
  const known = formats.get(timeZone)
  if (known !== undefined) return known
  const made = new Intl.DateTimeFormat('en-GB', {
    hour: '2-digit',
    minute: '2-digit',
    second: '2-digit',
    hourCycle: 'h23',
    ...(timeZone === undefined ? {} : { timeZone })
  })
  formats.set(timeZone, made)
  return made
}
