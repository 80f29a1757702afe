import { describe, expect, it } from 'vitest'
import type { Card } from '../blocks/block.js'
import { english } from '../catalog.js'
import type { Metrics } from '../text/metrics.js'
import { paragraph, say } from '../text/say.js'
import { cardFlow } from './card-flow.js'
import { paginate } from './paginate.js'
import type { Setting } from './setting.js'
import { flow, heightOf } from './slab.js'
import { pageOf } from './style.js'

/** Every sign is half as wide as it is high. */
const metrics: Metrics = { width: (text, _, size) => [...text].length * size * 0.5 }
const setting: Setting = { page: pageOf('a4'), metrics, catalog: english }

function gate(rows: number): Card {
  return {
    number: 7,
    title: 'Lock Q1',
    name: 'lock-out.4',
    kind: 'lock',
    bar: 'LOCK',
    shape: 'gate',
    rail: '',
    intro: [],
    notices: [
      { word: 'danger', signal: 'DANGER', label: 'Stored charge', body: paragraph(say('Keep the inner cover shut.')) }
    ],
    rows: Array.from({ length: rows }, (_, index) => ({
      kind: 'entry' as const,
      mark: 'box' as const,
      content: paragraph(say(`Item ${index}`)),
      blanks: [{ label: 'Lock no.', size: 'short' as const }]
    })),
    signed: true,
    times: 1
  }
}

const filler = (height: number) => flow([{ height, draw: () => {} }])

describe('cardFlow', () => {
  it('never parts the notices and the bar of a gate from its title and first row', () => {
    const step = cardFlow(gate(60), 3, setting)
    const height = 700
    for (let used = 0; used < height; used += 7) {
      const [first = []] = paginate([filler(used), step], height)
      const begun = first.filter(({ slab }) => step.slabs.includes(slab)).length
      expect([used, begun === 0 || begun >= step.head]).toEqual([used, true])
    }
    const notices = cardFlow({ ...gate(60), rows: [] }, 3, setting).slabs.length
    expect(step.head).toBe(notices)
  })

  it('keeps a gate of ordinary length on one page', () => {
    const step = cardFlow(gate(6), 3, setting)
    const pages = paginate([filler(600), step], 700)
    expect(pages).toHaveLength(2)
    expect(pages[1]?.map(({ slab }) => slab)).toEqual(step.slabs)
  })

  it('says on the next page which step goes on there', () => {
    const step = cardFlow(gate(60), 3, setting)
    const pages = paginate([step], 700)
    expect(pages.length).toBeGreaterThan(1)
    for (const page of pages.slice(1)) expect(page[0]?.slab).toBe(step.repeat)
    expect(pages.flat().filter(({ slab }) => slab !== step.repeat)).toHaveLength(step.slabs.length)
  })

  it('needs more room where it can come again', () => {
    const once = cardFlow(gate(2), 3, setting)
    const often = cardFlow({ ...gate(2), times: 3 }, 3, setting)
    expect(heightOf(often.slabs)).toBeGreaterThan(heightOf(once.slabs))
  })
})
