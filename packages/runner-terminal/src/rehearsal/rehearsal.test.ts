import type { PersonId } from '@lockwright/machine'
import { stateOf } from '@lockwright/machine'
import { describe, expect, it } from 'vitest'
import { pumpMachine } from '../../fixtures/pump-machine.js'
import { openSession } from '../session/session.js'
import { optionsOf } from '../step/options.js'
import { guideAlong } from './guide-along.js'
import { numberedWays } from './numbered-ways.js'
import { standingClock } from './rehearsal-clock.js'
import { rehearsalRun } from './rehearsal-run.js'

const trainee = 'trainee' as PersonId

function rehearse(number: number) {
  const clock = standingClock('2026-03-02T07:00:00.000Z', 30)
  const run = rehearsalRun(pumpMachine, trainee, clock)
  const way = numberedWays(pumpMachine)[number - 1]
  if (way === undefined) throw new Error(`there is no way ${number}`)
  const guide = () => guideAlong(run, way)
  const { now, skipTo } = clock
  const session = openSession(run, { person: trainee, keys: null, now, skipTo, guide, takenUp: false })
  return { run, session, way, clock }
}

describe('a rehearsal along a way', () => {
  const ways = numberedWays(pumpMachine)

  it.each(ways.map(({ number }) => number))(
    'comes to the end of way %i by doing what it says at each step',
    (number) => {
      const { run, session, way } = rehearse(number)
      let named = 0
      for (let turn = 0; turn < 300 && run.snapshot.status === 'running'; turn++) {
        const said = guideAlong(run, way).join(' ')
        expect(said).toMatch(/^Path \d+ of \d+( \(.*\))?, step \d+ of \d+/)
        const asked = session.asked()
        const takes = / of \d+: (.+)$/.exec(said)?.[1] ?? null
        if (takes !== null) named++
        const line = lineFor(asked, takes)
        const reply = session.answer(line)
        if (session.question()?.kind === 'live-reason') session.answer('rehearsed')
        expect(reply.refused, `${line}: ${reply.said.join(' ')}`).toBe(false)
      }
      expect(run.snapshot.state).toBe(way.way.steps.at(-1)?.state)
      expect(named).toBeGreaterThan(0)

      function lineFor(asked: ReturnType<typeof session.asked>, takes: string | null): string {
        switch (asked.kind) {
          case 'choose': {
            const options = optionsOf(pumpMachine, stateOf(pumpMachine, run.snapshot.state))
            return String(options.findIndex(({ label }) => label === takes) + 1)
          }
          case 'reading': {
            if (takes === 'stays out of limits' && asked.mayGoOutside) return 'outside'
            const again = takes?.startsWith('out of limits, taken again') === true && asked.last === null
            const outside = takes === 'stays out of limits' || again
            return outside
              ? `${(asked.input.limits.max ?? 5) * 1.5} ${asked.input.unit}`
              : `${asked.input.limits.min ?? 0} ${asked.input.unit}`
          }
          case 'boxes':
            return asked.boxes.map((box) => box.number).join(' ')
          case 'waiting':
            return 'skip'
          case 'lock':
            return `${asked.point}1`
          case 'unlock':
            return asked.lock.lock
          case 'sign':
            return 'sign'
          default:
            // A block that is to run out of time is left to the clock.
            return takes === 'not in time' ? 'skip' : 'confirm' in asked ? asked.confirm.word : ''
        }
      }
    }
  )

  it('says where the way was left', () => {
    const { run, session, way } = rehearse(1)
    session.answer('1 2 3 4')
    session.answer('gathered')
    expect(guideAlong(run, way)).toEqual(['Path 1 of 6, step 2 of 19: Single seal'])
    session.answer('double')
    expect(guideAlong(run, way).join(' ')).toMatch(
      /^Path 1 of 6 was left at line \d+, .*: it went on by Single seal\.$/
    )
  })

  it('keeps nothing, is marked in every mode, and signs by name alone', () => {
    const { run, session } = rehearse(1)
    expect(run.mode).toBe('rehearsal')
    expect(session.screen().mode).toBe('REHEARSAL')
    expect(run).not.toHaveProperty('file')
    expect(session.answer('attach x').said.join(' ')).toContain('Files cannot be kept')
  })

  it('has the same times twice, half a minute an answer', () => {
    const times = [1, 2].map(() => {
      const { run, session } = rehearse(1)
      session.answer('1 2 3 4')
      session.answer('gathered')
      session.answer('single')
      return run.entries.map(({ at }) => at)
    })
    expect(times[0]).toEqual(times[1])
    expect(times[0]?.slice(0, 2)).toEqual(['2026-03-02T07:00:00.000Z', '2026-03-02T07:00:30.000Z'])
  })
})
