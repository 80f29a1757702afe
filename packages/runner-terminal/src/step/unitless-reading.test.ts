import { describe, expect, it } from 'vitest'
import { sessionAt } from '../../fixtures/session-at.js'
import { clearDesk } from './desk.js'
import { interpretReading } from './interpret-reading.js'

/** What is recorded of a line where no unit can be given; null where it is asked for again. */
function readBare(line: string, language: string): number | null {
  const session = sessionAt('0 V', null, language)
  const { machine, snapshot, entries } = session.run
  const asked = session.asked()
  if (asked.kind !== 'reading') throw new Error('no reading is asked for')
  const sitting = {
    machine,
    snapshot,
    entries,
    desk: clearDesk(snapshot.state),
    person: session.options.person,
    keys: null,
    people: [],
    stranger: () => null,
    offer: undefined,
    unfit: undefined,
    vouch: { needed: false, given: false, nameOf: () => null },
    elsewhere: [],
    skips: false
  }
  const meant = interpretReading(line, sitting, { ...asked.input, unit: '' })
  return meant.kind === 'event' && meant.event.kind === 'reading' ? meant.event.value : null
}

describe('a reading without a unit', () => {
  it.each([
    ['en', '4.2', 4.2],
    ['en', '4,2', 4.2],
    ['en', 'shows -0,5 left', -0.5],
    ['en', '1,480', null],
    ['en', '1.480', 1.48],
    ['de', '1.480', null],
    ['de', '1,480', 1.48],
    ['en', '1.480,5', null],
    ['en', 'green', null]
  ])('in a procedure in %s: `%s` is %s', (language, line, value) => {
    expect(readBare(line, language)).toBe(value)
  })
})
