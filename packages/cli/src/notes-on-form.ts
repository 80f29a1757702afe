import type { FormEntry, FormToRead } from './form-to-read.js'
import { CannotRun } from './read-input.js'

/** Notes and deviations stand in tables of their own, each beside the number of its step on this sheet. */
export function withNotes({ filled, numbers }: FormToRead, entries: readonly FormEntry[]): readonly FormEntry[] {
  const notes = new Map<string, string[]>()
  for (const part of ['notes', 'deviations']) {
    for (const [name, what] of filled) {
      const row = new RegExp(`^#${part}\\.1\\.(\\d+)-what$`).exec(name)?.[1]
      if (row === undefined) continue
      const number = String(filled.get(`#${part}.1.${row}-step`) ?? '').trim()
      const signed = filled.get(`#${part}.1.${row}-signed`)
      const entry = entryOf(number, entries, numbers)
      if (entry === undefined) throw new CannotRun(notEntered(number, String(what)))
      const told = [
        part === 'deviations' ? `Done differently: ${what}` : what,
        ...(signed === undefined ? [] : [signed])
      ]
      notes.set(entry.at, [...(notes.get(entry.at) ?? []), told.join(' - ')])
    }
  }
  const given = new Set<string>()
  return entries.map((entry) => {
    const note = notes.get(entry.at)
    if (note === undefined || given.has(entry.at)) return entry
    given.add(entry.at)
    return { ...entry, note: note.join('; ') }
  })
}

/** Without a number it is of the sheet as a whole, and goes with its first step. */
function entryOf(number: string, entries: readonly FormEntry[], numbers: FormToRead['numbers']): FormEntry | undefined {
  if (number === '') return entries[0]
  const digits = /\d+/.exec(number)?.[0]
  return entries.find(({ at }) => String(numbers.get(at)) === digits)
}

function notEntered(number: string, what: string): string {
  return (
    `\`${what}\` is written for step ${number}, and the form has no initials or time at a step of that number. ` +
    'Correct the number, or leave it empty where it is of the sheet as a whole.'
  )
}
