/** The time on the wall for people: `14:32:10`, in this computer's zone or the one that is named. */
export function clockTime(at: string, timeZone?: string): string {
  return new Intl.DateTimeFormat('en-GB', {
    hour: '2-digit',
    minute: '2-digit',
    second: '2-digit',
    hourCycle: 'h23',
    ...(timeZone === undefined ? {} : { timeZone })
  }).format(new Date(at))
}
