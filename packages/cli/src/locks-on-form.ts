import { type Card, type FormToRead, personAt, tellStep, text } from './form-to-read.js'
import { CannotRun } from './read-input.js'

/** Point to the number on its lock, as one card has them; undefined where it has none. */
export function locksOnForm(
  form: FormToRead,
  card: Card,
  by: string,
  owners: Map<string, string>
): Readonly<Record<string, string>> | undefined {
  const locks = card.fields.flatMap(({ input, kind, name }) => {
    const value = form.filled.get(name)
    const [, off, point] = /^(un)?lock-(.+)$/.exec(input) ?? []
    if (kind !== 'lock' || point === undefined || typeof value !== 'string') return []
    if (off === undefined) {
      compareWithFirstPage(form, card, point, value)
      owners.set(point, hungBy(form, card, point, by))
    } else takenOffBy(form, card, point, by, owners.get(point) ?? by)
    return [[point, value] as const]
  })
  return locks.length === 0 ? undefined : Object.fromEntries(locks)
}

/** The record has the lock as that of whoever did the step: another name beside it would be put under a wrong one. */
function hungBy(form: FormToRead, card: Card, point: string, by: string): string {
  const named = nameBeside(form, card, `lock-${point}-by`)
  if (named === null || named.person === by) return by
  throw new CannotRun(
    `at ${tellStep(form, card.state)} the lock on ${point} has the name \`${named.written}\`, and the step was done by \`${by}\`. ` +
      'A lock hangs under the name of whoever put it on. Ask whose it is: enter the step with the initials of that person, ' +
      'or the other lock under `People on this job`.'
  )
}

/** A lock comes off by whoever hung it. */
function takenOffBy(form: FormToRead, card: Card, point: string, by: string, owner: string): void {
  const named = nameBeside(form, card, `unlock-${point}-by`)
  if ((named?.person ?? by) === owner) return
  const who = named === null ? `the initials of \`${by}\`` : `the name \`${named.written}\``
  throw new CannotRun(
    `at ${tellStep(form, card.state)} the lock that came off ${point} has ${who}, and \`${owner}\` hung it. ` +
      'A lock comes off by whoever hung it. Ask who took it off; what stands before that step can be entered.'
  )
}

function nameBeside(
  form: FormToRead,
  card: Card,
  input: string
): { readonly written: string; readonly person: string } | null {
  const written = text(form, card, input)
  return written === null ? null : { written, person: personAt(form, written, tellStep(form, card.state)) }
}

/** The first page has room for the same number: two of them for one lock cannot both be right. */
function compareWithFirstPage(form: FormToRead, card: Card, point: string, lock: string): void {
  const first = form.filled.get(`#devices.1.${point}-lock`)
  if (typeof first !== 'string' || first.split(/[\s,;]+/).includes(lock)) return
  throw new CannotRun(
    `the lock on ${point} has number ${lock} at ${tellStep(form, card.state)}, and ${first} in the list of isolating devices. See which one hangs there.`
  )
}
