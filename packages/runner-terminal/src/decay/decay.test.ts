import { describe, expect, it } from 'vitest'
import { memoryRun, standingClock, vega } from '../../fixtures/memory-run.js'
import { pumpLines } from '../../fixtures/pump-lines.js'
import { provedFixture } from '../../fixtures/pump-machine.js'
import { openSession } from '../session/session.js'
import { decaySeries } from './decay-series.js'

// 2 mF and 22 kΩ fall with a time constant of 44 s; at the top of their tolerances 58.08 s.
const pump = provedFixture('pump.md', (text) =>
  text
    .replace('capacitance: 2 mF ± 20 %', 'capacitance: 2 mF ± 20 %\n    bleed: 22 kΩ ± 10 %')
    .replace('::part[', '::tool[Discharge stick]{#stick}\n::part[')
)
const discharged = provedFixture('pump.md', (text) =>
  text.replace('::part[', '::tool[Discharge stick]{#stick}\n::part[').replace('with=gauge', 'with="gauge stick"')
)

/** At the first reading of the link, P to M; then these readings, each so many seconds after the one before. */
function read(machine: typeof pump, readings: readonly (readonly [number, string])[]) {
  const clock = standingClock()
  const run = memoryRun(machine, clock.now)
  const session = openSession(run, { person: vega, keys: null, now: clock.now, takenUp: false })
  const lines = ['5', ...pumpLines.slice(0, pumpLines.indexOf('3 V'))]
  for (const line of lines) {
    clock.pass(10)
    session.answer(line)
    const due = session.asked().kind === 'waiting' ? session.due() : null
    if (due !== null) clock.set(due)
    session.passTime()
  }
  const said = readings.map(([seconds, line]) => {
    clock.pass(seconds)
    const reply = session.answer(line)
    expect(reply.refused).toBe(false)
    if (session.question()?.kind === 'live-reason') session.answer('it is still discharging')
    return session.screen().decays.flatMap(({ says }) => says)
  })
  return { run, session, said, last: said.at(-1) ?? [] }
}

/** What is left of 200 V after so long, to a hundredth of a volt. */
const after = (seconds: number, constant: number): string => `${(200 * Math.exp(-seconds / constant)).toFixed(2)} V`

describe('readings of a source that falls', () => {
  it('say when it should be safe, and let nothing pass', () => {
    const { said, session } = read(pump, [
      [10, '200 V'],
      [20, after(20, 40)],
      [20, after(40, 40)]
    ])
    expect(said[0]).toEqual([])
    // By hand: 200 V falls to 50 V within 40 s · ln 4 = 55.5 s, 15.5 s behind the reading at 40 s.
    expect(said[1]?.[0]).toMatch(
      /^link: P to M: It should be below the safe level about 3[56] s after the last reading/
    )
    expect(said[2]?.[0]).toMatch(
      /^link: P to M: It should be below the safe level about 1[56] s after .* Only a reading is proof\.$/
    )
    expect(session.asked()).toMatchObject({ kind: 'reading', last: { inside: false } })
    expect(session.answer('proven').refused).toBe(true)
    expect(session.answer('done').refused).toBe(true)
  })

  it('warn where it falls slower than the worst case of what is declared', () => {
    const { last } = read(pump, [
      [10, '200 V'],
      [20, after(20, 120)],
      [20, after(40, 120)]
    ])
    expect(last[0]).toContain('slower than the worst case of what is declared: a bleed resistor may be open')
    expect(last).toHaveLength(2)
  })

  it('warn where it has stopped falling, and foretell nothing then', () => {
    const { last } = read(pump, [
      [10, '200 V'],
      [20, after(20, 40)],
      [20, after(20, 40)]
    ])
    expect(last.join(' ')).toMatch(/It has stopped falling at 121\.3 V: it may still be fed.* Do not wait for it/)
    expect(last.join(' ')).not.toContain('should be below')
  })

  it('tell a charge that comes back after a short from one that is fed', () => {
    const rises = [
      [10, '60 V'],
      [20, '75 V']
    ] as const
    expect(read(discharged, rises).last[0]).toContain(
      'rose from 60 V to 75 V after the short was taken off: dielectric absorption'
    )
    expect(read(pump, rises).last[0]).toContain('It rises, from 60 V to 75 V: it may still be fed')
  })

  it('are no rise within the last digit that was typed', () => {
    expect(
      read(pump, [
        [10, '60 V'],
        [20, '59 V'],
        [20, '60 V']
      ]).last.join(' ')
    ).not.toMatch(/rise|rose/)
    expect(
      read(pump, [
        [10, '59 V'],
        [20, '61 V']
      ]).last.join(' ')
    ).toContain('It rises')
  })

  it('say nothing once it is safe', () => {
    expect(
      read(pump, [
        [10, '200 V'],
        [60, '3 V']
      ]).last
    ).toEqual([])
    const { session } = read(pump, [[10, '3 V']])
    expect(session.answer('sources').page?.lines.join('\n')).not.toContain('read:')
  })

  it('are drawn on the page of the sources, against the band that is declared', () => {
    const { session } = read(pump, [
      [10, '200 V'],
      [20, after(20, 120)],
      [20, after(40, 120)]
    ])
    const lines = session.answer('sources').page?.lines ?? []
    const at = lines.findIndex((line) => line.includes('read:'))
    expect(lines[at]).toMatch(/^link: P to M read: 200 V at \d\d:\d\d:\d\d, 169\.30 V at .*, 143\.31 V at /)
    // By hand: at the right edge, after 120 s, the slowest of 58.08 s is at 25 V and the fastest, 1.6 mF and 19.8 kΩ,
    // 31.68 s, at 4.5 V; 169 V and 143 V lie above both.
    const plot = lines.slice(lines.findIndex((line) => line.includes(' |')))
    expect(plot.map((line) => line.replace(/\d\d:\d\d:\d\d/g, 'hh:mm:ss'))).toEqual([
      '200 V |o.',
      '      | ,...o',
      '      |   ,,...  o',
      '      |     ,, .....',
      '      |       ,,,,  ........',
      '      |-----------,,,,,,,,,-.......---',
      '  0 V |                    ,,,,,,,,,,,',
      '      +-------------------------------',
      '       hh:mm:ss               hh:mm:ss',
      'o read; - safe: 50 V',
      '. slowest declared, and , fastest'
    ])
    for (const line of plot) expect(line.length).toBeLessThanOrEqual(38)
  })

  it('begin anew where the source was fed meanwhile', () => {
    const { run, session } = read(pump, [[10, '200 V']])
    expect(decaySeries(pump, run.entries).map(({ label }) => label)).toContain('link: P to M')
    for (const line of pumpLines.slice(pumpLines.indexOf('3 V'))) session.answer(line)
    expect(run.snapshot.status).toBe('finished')
    expect(decaySeries(pump, run.entries)).toEqual([])
  })
})

describe('a supply that is still there', () => {
  it('is no decay', () => {
    const clock = standingClock()
    const run = memoryRun(pump, clock.now)
    const session = openSession(run, { person: vega, keys: null, now: clock.now, takenUp: false })
    for (const line of ['5', ...pumpLines.slice(0, pumpLines.indexOf('0 V'))]) {
      session.answer(line)
      const due = session.asked().kind === 'waiting' ? session.due() : null
      if (due !== null) clock.set(due)
      session.passTime()
    }
    expect(session.answer('229 V').said).toEqual([
      'LIVE: step back. mains: L to N read 229 V (it has to be below 50 V)'
    ])
    expect(session.screen().decays.flatMap(({ says }) => says)).toEqual([
      'mains: L to N: A supply does not decay: a voltage that is still there means that it is not isolated.'
    ])
  })
})
