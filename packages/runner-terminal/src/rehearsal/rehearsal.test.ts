import { describe, expect, it } from 'vitest'
import { pumpMachine } from '../../fixtures/pump-machine.js'
import { rehearse as rehearsed, walkWay } from '../../fixtures/walk-way.js'
import { guideAlong, type NumberedWay } from './guide-along.js'
import { numberedWays } from './numbered-ways.js'

function wayOf(number: number): NumberedWay {
  const way = numberedWays(pumpMachine)[number - 1]
  if (way === undefined) throw new Error(`there is no way ${number}`)
  return way
}

const rehearse = (number: number) => ({ ...rehearsed(pumpMachine, wayOf(number)), way: wayOf(number) })

describe('a rehearsal along a way', () => {
  const ways = numberedWays(pumpMachine)

  it.each(ways.map(({ number }) => number))(
    'comes to the end of way %i by doing what it says at each step',
    (number) => {
      const way = wayOf(number)
      const { run, guides, refused } = walkWay(pumpMachine, way)
      expect(refused).toEqual([])
      for (const said of guides) expect(said).toMatch(/^Path \d+ of \d+( \(.*\))?, step \d+ of \d+/)
      expect(run.snapshot.state).toBe(way.way.steps.at(-1)?.state)
      expect(guides.some((said) => said.includes(': '))).toBe(true)
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
