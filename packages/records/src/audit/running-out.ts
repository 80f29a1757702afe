import { daysAfter } from '../inspection/days.js'
import type { Use } from '../inspection/inspector-fault.js'
import { type Instrument, type Instruments, withdrawnAt } from '../instruments/instrument.js'
import type { Person, Roster } from '../roster.js'
import { count, type Found } from './verdict.js'

/** So many days before the end of a paper it counts as running out. Common practice, no source. */
export const warningDays = 30

/** Qualifications of people who worked within a year, that have ended without a later one or end soon. */
export function qualificationsDue(
  roster: Roster,
  uses: ReadonlyMap<string, readonly Use[]>,
  today: string
): { readonly found: readonly Found[]; readonly checked: readonly string[] } {
  const from = daysAfter(today, -365)
  const active = new Set([...uses.values()].flat().flatMap(({ person, to }) => (to >= from ? [person] : [])))
  const people = roster.people.filter(({ id, revokedAt }) => active.has(id) && revokedAt === null)
  return {
    found: people.flatMap((person) => endingOf(person, today)),
    checked: [
      `Qualifications of ${count(people.length, 'person', 'people')} who worked in the last 365 days, against the next ${warningDays} days`
    ]
  }
}

function endingOf(person: Person, today: string): readonly Found[] {
  const soon = daysAfter(today, warningDays)
  return [...new Set(person.qualifications.map(({ is }) => is))].flatMap((is): readonly Found[] => {
    const held = person.qualifications.filter((one) => one.is === is)
    if (held.some(({ validUntil }) => validUntil === null)) return []
    const until =
      held
        .map(({ validUntil }) => validUntil ?? '')
        .toSorted()
        .at(-1) ?? ''
    if (until > soon) return []
    const ended = until < today
    return [
      {
        id: ended ? 'qualification-ended' : 'qualification-ends',
        weight: 'doubt',
        seq: null,
        file: 'people.yaml',
        what: `\`${is}\` of ${person.name} (${person.id}) ${ended ? 'ended' : 'ends'} on ${until}.`,
        danger:
          'Work that asks for it would be refused in the middle of a lockout, or be done by someone no longer trained.',
        mend: 'Have it renewed with `people qualify`, or see that the person is not planned for that work.'
      }
    ]
  })
}

/** Calibrations of instruments in use that have ended or end soon. */
export function calibrationsDue(
  { instruments, serial }: Instruments,
  today: string
): { readonly found: readonly Found[]; readonly checked: readonly string[] } {
  const inUse = instruments.filter((one) => !withdrawnAt(one, today))
  return {
    found: inUse.flatMap((one) => calibrationOf(one, today)),
    checked: [
      `Calibration of ${count(inUse.length, 'instrument')} in use by list ${serial}, against the next ${warningDays} days`
    ]
  }
}

function calibrationOf({ id, name, calibrations }: Instrument, today: string): readonly Found[] {
  const until =
    calibrations
      .map((one) => one.until)
      .toSorted()
      .at(-1) ?? ''
  if (until > daysAfter(today, warningDays)) return []
  const ended = until < today
  return [
    {
      id: ended ? 'calibration-ended' : 'calibration-ends',
      weight: 'doubt',
      seq: null,
      file: 'instruments.yaml',
      what: `The calibration of \`${id}\` (${name}) ${until === '' ? 'is not on the list' : `${ended ? 'ended' : 'ends'} on ${until}`}.`,
      danger:
        'A reading that says dead may be wrong, or work would stop for want of an instrument in the middle of a lockout.',
      mend: 'Have it calibrated and entered with `instruments calibrate`, or take it out of use.'
    }
  ]
}
