import { stateOf } from '@lockwright/machine'
import { type FormComing, type FormEntry, type FormToRead, personAt } from './form-to-read.js'
import { CannotRun } from './read-input.js'
import { clockTime } from './sheet-times.js'

interface Row {
  readonly person: string
  readonly locks: Readonly<Record<string, string>>
  /** RFC 3339: when their locks came off; null: the sheet does not say it. */
  readonly off: string | null
}

/** An entry that answers no step. */
export interface PeopleEntry {
  readonly people: readonly FormComing[]
}

/** The entries, and between them whoever else came to work under the lockout, or left it, by `People on this job`. */
export function withPeople(form: FormToRead, entries: readonly FormEntry[]): readonly (FormEntry | PeopleEntry)[] {
  const began = entries.find(({ time }) => time !== undefined)?.time ?? ''
  let waiting = peopleRows(form, entries, began)
  let here: readonly Row[] = []
  let now = began
  const locked = new Set<string>()
  const whole = entries.flatMap((entry): readonly (FormEntry | PeopleEntry)[] => {
    now = entry.time ?? now
    const unlocks = stateOf(form.machine, entry.at).kind === 'unlock'
    const gone = here.filter(({ off }) => off !== null && (unlocks || Date.parse(off) <= Date.parse(now)))
    here = here.filter((row) => !gone.includes(row))
    for (const point of Object.keys(entry.locks ?? {})) {
      if (unlocks) locked.delete(point)
      else locked.add(point)
    }
    const come = waiting.filter(({ locks }) => Object.keys(locks).every((point) => locked.has(point)))
    waiting = waiting.filter((row) => !come.includes(row))
    here = [...here, ...come]
    return [...leaving(gone, now), entry, ...coming(come)]
  })
  for (const { locks, person } of waiting) {
    throw new CannotRun(
      `under \`People on this job\` \`${person}\` has locks on ${Object.keys(locks).join(', ')}, and the sheet does not say that all of these were locked. ` +
        'Ask whoever worked with it; no lock that hangs is left out of the record.'
    )
  }
  return whole
}

function coming(rows: readonly Row[]): readonly PeopleEntry[] {
  return rows.length === 0 ? [] : [{ people: rows.map(({ locks, person }) => ({ joins: person, locks })) }]
}

function leaving(rows: readonly Row[], now: string): readonly PeopleEntry[] {
  const people = rows.map(({ off, person }) => ({
    leaves: person,
    ...(off === null || Date.parse(off) > Date.parse(now) ? {} : { time: off })
  }))
  return people.length === 0 ? [] : [{ people }]
}

function peopleRows(form: FormToRead, entries: readonly FormEntry[], began: string): readonly Row[] {
  const { filled } = form
  const keys = [...new Set([...filled.keys()].flatMap((name) => /^#people\.1\.(.+)-[a-z]+$/.exec(name)?.[1] ?? []))]
  return keys.flatMap((key): readonly Row[] => {
    const [name, initials, written, off] = ['name', 'initials', 'locks', 'off'].map((column) => {
      const value = filled.get(`#people.1.${key}-${column}`)
      return typeof value === 'string' ? value : null
    })
    if (written == null) return []
    const told = name ?? initials
    if (told == null)
      throw new CannotRun(`under \`People on this job\` locks ${written} have no name. Say whose they are.`)
    const person = personAt(form, told, '`People on this job`')
    if (name != null && initials != null && personAt(form, initials, '`People on this job`') !== person)
      throw new CannotRun(`under \`People on this job\` the initials \`${initials}\` are not those of \`${name}\`.`)
    const own = entries
      .filter(({ by, locks }) => by === person && locks !== undefined)
      .flatMap(({ locks }) => Object.values(locks ?? {}))
    const numbers = written.split(/[\s,;]+/).filter((one) => one !== '')
    // The locks of whoever locked in the steps stand here once more.
    if (numbers.every((one) => own.includes(one) || pointsOf(form).has(one))) return []
    return [{ person, locks: pairsOf(form, person, written), off: off == null ? null : clockTime(off, began, form) }]
  })
}

function pointsOf({ machine }: FormToRead): ReadonlySet<string> {
  return new Set(machine.points.map(({ id }): string => id))
}

/** `Q1 41, V1 42`: a number alone does not say on which point the lock hangs. */
function pairsOf(form: FormToRead, person: string, written: string): Readonly<Record<string, string>> {
  const words = written.split(/[\s,;:=]+/).filter((one) => one !== '')
  const points = pointsOf(form)
  const pairs = new Map<string, string>()
  for (let at = 0; at < words.length; at += 2) {
    const [point = '', lock] = words.slice(at, at + 2)
    if (!points.has(point) || lock === undefined || pairs.has(point)) {
      throw new CannotRun(
        `under \`People on this job\` \`${person}\` has locks \`${written}\`, and it does not say on which point each of them hangs. ` +
          `Ask \`${person}\`, and write every one behind its point in the form: ${[...points].map((id, index) => `${id} ${41 + index}`).join(', ')}. ` +
          'No lock that hangs is left out of the record.'
      )
    }
    pairs.set(point, lock)
  }
  return Object.fromEntries(pairs)
}
