import { uptime } from 'node:os'
import { type Machine, type PersonId, type Snapshot, stateOf } from '@lockwright/machine'
import type { ProvedMachine } from '@lockwright/proof'
import {
  fittingInstruments,
  holdsAt,
  instrumentFaults,
  instrumentNeed,
  lockSpans,
  locksPastShift,
  personOf,
  provenAgainNeed,
  type Run,
  readInstruments,
  readRoster,
  type Site
} from '@lockwright/records'
import type { OfferInstruments, SessionOptions } from '@lockwright/runner-terminal'
import { keepAttachment } from '../keep-attachment.js'
import { keyRing } from '../key-ring.js'

interface StepSession {
  readonly site: Site
  readonly run: Run
  readonly person: PersonId
  readonly now: () => string
  readonly takenUp: boolean
  /** Times come from a file: the clock of the computer says nothing of them. */
  readonly scripted: boolean
}

/** All that a session at the terminal asks the site for. */
export function stepSession({ site, run, person, now, takenUp, scripted }: StepSession): SessionOptions {
  const roster = readRoster(site)
  const issued = run.mode === 'issued'
  return {
    person,
    keys: keyRing(site, now),
    now,
    takenUp,
    ...(scripted ? {} : { elapsed: () => uptime() * 1000 }),
    ...(issued
      ? {
          barred: barredBy(site, run.machine, now),
          instruments: offeredBy(site, run, now),
          unfit: unfitBy(site, run, now)
        }
      : {}),
    ...(issued && roster.ok
      ? {
          people: () => roster.value.people.map(({ id }) => id as PersonId),
          nameOf: (id: PersonId) => personOf(roster.value, id)?.name ?? null
        }
      : {}),
    warnings: () => pastShift(site, run, now()),
    attach: (path) => keepAttachment(site, path)
  }
}

/** The roster, asked before a passphrase is: the records ask it again once the signature is there. */
function barredBy(site: Site, machine: ProvedMachine, now: () => string): NonNullable<SessionOptions['barred']> {
  return (id, role) => {
    const declared = machine.roles.find((one) => one.id === role)
    if (declared === undefined || declared.holds.length === 0) return null
    const roster = readRoster(site)
    if (!roster.ok) return { why: roster.faults[0].what, mend: roster.faults[0].mend }
    const person = personOf(roster.value, id)
    if (person !== null && holdsAt(person, declared.holds, now())) return null
    const missing = declared.holds.map((held) => `\`${held}\``).join(' and ')
    return {
      why: `This asks for a ${declared.name}. The roster does not show ${missing} for \`${id}\` today.`,
      mend: 'Have it signed by someone who holds it, or stop.'
    }
  }
}

/** Those of the site's list that the records would take for the reading, calibrated on this day. */
export function offeredBy(site: Site, run: Run, now: () => string): OfferInstruments {
  return (input, again) => {
    const kept = readInstruments(site)
    if (!kept.ok || kept.value === null) return null
    const need = needOf(run.machine, run.snapshot, input, again)
    if (need?.named !== true) return null
    return fittingInstruments(kept.value, need, { unit: input.unit, at: now() }).map(
      ({ id, name, serial, calibrations }) => {
        const until = calibrations.at(-1)?.until
        return { id, tell: `${name}, no. ${serial}${until === undefined ? '' : `, calibrated until ${until}`}` }
      }
    )
  }
}

/** Everything that speaks against an instrument of the list for this reading on this day. */
function unfitBy(site: Site, run: Run, now: () => string): NonNullable<SessionOptions['unfit']> {
  return (input, again, id) => {
    const kept = readInstruments(site)
    if (!kept.ok || kept.value === null) return null
    const need = needOf(run.machine, run.snapshot, input, again)
    const reading = { instrument: id, value: 0, unit: input.unit, at: now() }
    return instrumentFaults(kept.value, need, reading)
      .map(({ why }) => why)
      .join(' ')
  }
}

function needOf(machine: Machine, snapshot: Snapshot, input: Parameters<OfferInstruments>[0], again: boolean) {
  const [source] = snapshot.recheck
  if (!again) return instrumentNeed(machine, stateOf(machine, snapshot.state), input.id)
  return source === undefined ? null : provenAgainNeed(machine, source)
}

/** Locks that hang for longer than a shift, one line a person. */
function pastShift(site: Site, run: Run, at: string): readonly string[] {
  const roster = readRoster(site)
  const over = locksPastShift(lockSpans(run.entries), at, roster.ok ? roster.value : null).filter(
    ({ until }) => until === null
  )
  const people = [...new Set(over.map(({ person }) => person))]
  return people.map((person) => {
    const theirs = over.filter((lock) => lock.person === person)
    const hours = Math.floor(Math.max(...theirs.map((lock) => lock.hours)))
    const on = theirs.map(({ point, lock }) => `${lock} on ${point}`).join(', ')
    return (
      `Lock ${on} of ${person}: on for ${hours} h, longer than a shift. Is ${person} still here? ` +
      'Else hand over, with `handover`: the incoming lock first.'
    )
  })
}
