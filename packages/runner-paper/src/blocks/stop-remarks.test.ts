import { describe, expect, it } from 'vitest'
import { boosterPump } from '../booster-pump.fixture.js'
import { english } from '../catalog.js'
import type { Block } from './block.js'
import { card, laidOut, strings } from './laid-out.fixture.js'

describe('a stop', () => {
  const stopText = (blocks: readonly Block[], title: string): string =>
    strings(card(blocks, title).rows).find((text) => text.startsWith(english.stops.ends)) ?? ''
  const turn = (does: readonly unknown[]) => [{ needs: [], does }]
  const withTurns = (turns: Readonly<Record<string, readonly unknown[]>>) =>
    laidOut(
      boosterPump({
        states: boosterPump().states.map((state) => ({ ...state, turns: turn(turns[state.id] ?? []) }) as typeof state)
      })
    )
  const lockAll = ['Q1', 'V1', 'V2'].map((point) => ({ does: 'move', point, to: 'locked' }))

  it('claims no lock where none hangs, and says what to lock', () => {
    const blocks = withTurns({
      lock: lockAll,
      on: ['Q1', 'V1', 'V2'].map((point) => ({ does: 'move', point, to: 'on' }))
    })
    for (const title of ['Stop: not a pre-charge fault', 'Stop: call the drive specialist']) {
      const told = stopText(blocks, title)
      expect(told).toContain('Nothing is locked here, and the equipment can be on: lock Q1, V1, V2 (Series T only)')
      expect(told).toContain('person in charge')
      expect(told).not.toMatch(/stays? on|stays? in place/)
    }
  })

  it('names what stays locked and what stays on', () => {
    const told = stopText(
      withTurns({ lock: lockAll, earth: [{ does: 'put', restraint: 'earths', to: 'on' }] }),
      'Stop: fetch a new seal'
    )
    expect(told).toContain('The locks and tags on Q1, V1, V2 (Series T only) stay on.')
    expect(told).toContain('Stays in place: earths.')
    expect(told).not.toMatch(/lock Q1|No lock|Nothing/)
  })

  it('says "if" where it depends on the way', () => {
    const blocks = withTurns({ lock: lockAll.slice(0, 1), bolts: [{ does: 'move', point: 'V1', to: 'locked' }] })
    const told = stopText(blocks, 'Stop: fetch a new seal')
    expect(told).toContain('The locks and tags on Q1 stay on.')
    expect(told).toContain('Whether locks hang on V1 depends on the way that led here: if locks hang, they stay on')
    expect(told).toContain('No lock hangs on V2 (Series T only): lock it')
  })
})
