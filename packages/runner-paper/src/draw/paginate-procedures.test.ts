import type { StateId } from '@lockwright/machine'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { layOut } from '../blocks/lay-out.js'
import { boosterPump } from '../booster-pump.fixture.js'
import { english } from '../catalog.js'
import { boxes, done, list, made, reading, text } from '../made.fixture.js'
import { buildSheet } from '../sheet/build-sheet.js'
import type { Metrics } from '../text/metrics.js'
import { flowsOf } from './flows.js'
import { paginate } from './paginate.js'
import type { Setting } from './setting.js'
import { type Flow, heightOf, type Slab } from './slab.js'
import { pageOf } from './style.js'

/** Every sign is half as wide as it is high. */
const metrics: Metrics = { width: (words, _, size) => [...words].length * size * 0.5 }

const words = (most: number) =>
  fc.integer({ min: 0, max: most }).map((count) => 'Turn the lever across the pipe. '.repeat(count))
const notice = fc.record({
  id: fc.constant('notice-1'),
  word: fc.constantFrom('danger', 'warning', 'caution', 'notice'),
  label: fc.constant('Stored charge'),
  body: words(12).map(text)
})

/** One step of any shape; some are longer than a page. */
const randomStep = fc.oneof(
  fc.record({
    kind: fc.constantFrom('work' as const, 'inspect' as const, 'shutdown' as const, 'clear' as const),
    items: fc.integer({ min: 0, max: 40 }),
    intro: words(60).map(text),
    notices: fc.array(notice, { maxLength: 3 }),
    section: fc.constantFrom('prepare', 'lock-out', 'change', 'hand-back')
  }),
  fc.record({
    kind: fc.constant('prove' as const),
    items: fc.integer({ min: 1, max: 60 }),
    intro: words(4).map(text),
    notices: fc.array(notice, { maxLength: 1 }),
    section: fc.constant('lock-out')
  })
)

const randomMachine = fc.array(randomStep, { minLength: 1, maxLength: 40 }).map((steps) => {
  const states = steps.map(({ kind, items, intro, notices, section }, index) => {
    const told = Array.from({ length: items }, (_, item) => `Item ${item} of step ${index}`)
    const common = {
      title: `Step called ${index}`,
      section,
      intro,
      notices,
      exits: done(index + 1 < steps.length ? `s${index + 1}` : 'end')
    }
    return kind === 'prove'
      ? made(`s${index}`, {
          ...common,
          kind,
          sources: [],
          with: [],
          known: null,
          by: 'instrument',
          inputs: told.map((pair) => reading('mains', `mains: ${pair}`, 'V', 50))
        })
      : made(`s${index}`, {
          ...common,
          kind,
          leaves: [],
          why: null,
          permits: [],
          with: [],
          body: list(...told),
          inputs: boxes(...told)
        })
  })
  const end = made('end', { kind: 'finish', title: 'Return to service', section: 'hand-back' })
  return boosterPump({ states: [...states, end], start: 's0' as StateId })
})

interface Sheet {
  readonly flows: readonly Flow[]
  readonly pages: ReturnType<typeof paginate>
  readonly height: number
}

/** Flows that a page made begin in what was left of it, by those that they were made from. */
const cuts = new WeakMap<Flow, Flow[]>()

function set(machine: ReturnType<typeof boosterPump>, paper: 'a4' | 'letter'): Sheet {
  const page = pageOf(paper)
  const setting: Setting = { page, metrics, catalog: english }
  const blocks = layOut(buildSheet(machine), { paper, issue: { kind: 'draft' }, digest: 'ab12'.repeat(16) }, english)
  const height = page.height - page.top - page.bottom
  const flows = flowsOf(blocks, '', setting)
  const pages = paginate(flows.map(watched), height)
  const placed = new Set(pages.flatMap((each) => each.map(({ slab }) => slab)))
  return {
    flows: flows.map((each) => cuts.get(each)?.find((cut) => placed.has(cut.slabs[1] as Slab)) ?? each),
    pages,
    height
  }

  /** What it was cut into instead, where it was. */
  function watched(each: Flow): Flow {
    const { refit } = each
    if (refit === null) return each
    const made: Flow[] = []
    cuts.set(each, made)
    return {
      ...each,
      refit: (room) => {
        const cut = refit(room)
        made.push(cut)
        return cut
      }
    }
  }
}

/** Which page each strip is on; a repeated one counts where it stands first. */
function pageOfEach({ pages }: Sheet): ReadonlyMap<Slab, number> {
  const found = new Map<Slab, number>()
  pages.forEach((page, index) => {
    for (const { slab } of page) if (!found.has(slab)) found.set(slab, index)
  })
  return found
}

describe('the pages of random procedures', () => {
  const sheet = fc
    .tuple(randomMachine, fc.constantFrom('a4' as const, 'letter' as const))
    .map(([machine, paper]) => set(machine, paper))
  const holds = (check: (made: Sheet) => void): void => {
    fc.assert(fc.property(sheet, check), { seed: 20261126, numRuns: 60 })
  }

  it('hold every strip once, in order', () => {
    holds(({ flows, pages }) => {
      const repeats = new Set(flows.flatMap(({ repeat }) => (repeat === null ? [] : [repeat])))
      const all = flows.flatMap(({ slabs }) => slabs)
      const placed = pages.flatMap((page) => page.map(({ slab }) => slab))
      const own = new Set(all)
      expect(placed.filter((slab, at) => own.has(slab) && !(repeats.has(slab) && placed.indexOf(slab) < at))).toEqual(
        all
      )
    })
  })

  it('are never written over their lower edge', () => {
    holds(({ pages, height }) => {
      for (const page of pages)
        for (const { slab, y } of page)
          if (slab.height <= height) expect(y + slab.height).toBeLessThanOrEqual(height + 0.001)
    })
  })

  it('never part a gate, its notices or its title from the first thing that it asks for', () => {
    holds((made) => {
      const at = pageOfEach(made)
      for (const { slabs, head } of made.flows) {
        if (heightOf(slabs.slice(0, head)) > made.height) continue
        expect(new Set(slabs.slice(0, head).map((slab) => at.get(slab))).size).toBe(1)
      }
    })
  })

  it('cut nothing that is short enough to stay whole', () => {
    holds((made) => {
      const at = pageOfEach(made)
      for (const { slabs, whole } of made.flows)
        if (heightOf(slabs) <= whole * made.height) expect(new Set(slabs.map((slab) => at.get(slab))).size).toBe(1)
    })
  })

  it('leave no heading and no last line alone', () => {
    holds((made) => {
      const at = pageOfEach(made)
      made.flows.forEach(({ slabs, keepNext, head }, index) => {
        const next = made.flows[index + 1]
        const [last, before] = [slabs.at(-1), slabs.at(-2)]
        if (
          keepNext &&
          next !== undefined &&
          last !== undefined &&
          heightOf(slabs) + heightOf(next.slabs.slice(0, next.head)) + next.before <= made.height / 2
        )
          expect(at.get(last)).toBe(at.get(next.slabs[0] as Slab))
        if (
          last !== undefined &&
          before !== undefined &&
          slabs.length > head + 1 &&
          last.height <= made.height / 5 &&
          before.height + last.height < made.height
        )
          expect(at.get(last)).toBe(at.get(before))
      })
    })
  })
})
