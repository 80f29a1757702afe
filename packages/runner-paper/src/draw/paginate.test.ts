import { describe, expect, it } from 'vitest'
import { type Placed, paginate } from './paginate.js'
import { type Flow, flow, type Slab } from './slab.js'

const names = new Map<Slab, string>()

function slab(name: string, height: number): Slab {
  const made: Slab = { height, draw: () => {} }
  names.set(made, name)
  return made
}

function flowOf(name: string, heights: readonly number[], extra: Partial<Flow> = {}): Flow {
  return flow(
    heights.map((height, index) => slab(`${name}${index + 1}`, height)),
    extra
  )
}

function told(pages: readonly (readonly Placed[])[]): readonly string[] {
  return pages.map((page) => page.map((placed) => names.get(placed.slab)).join(' '))
}

describe('paginate', () => {
  it('begins a new page where a strip does not fit', () => {
    expect(told(paginate([flowOf('a', [60]), flowOf('b', [60])], 100))).toEqual(['a1', 'b1'])
  })

  it('opens a page for what is filed by itself, unless little stands on this one', () => {
    const opens = flowOf('b', [20], { turn: true })
    expect(told(paginate([flowOf('a', [60]), opens], 100))).toEqual(['a1', 'b1'])
    expect(told(paginate([flowOf('a', [20]), opens], 100))).toEqual(['a1 b1'])
  })

  it('puts no strip outside the page, and leaves out the space before a flow at its top', () => {
    const pages = paginate(
      [flowOf('a', [60], { before: 10 }), flowOf('b', [60], { before: 10 }), flowOf('c', [30], { before: 10 })],
      100
    )
    expect(pages.map((page) => page.map(({ y }) => y))).toEqual([[0], [0, 70]])
  })

  it('keeps a heading with what follows it', () => {
    const pages = paginate([flowOf('a', [70]), flowOf('h', [20], { keepNext: true }), flowOf('b', [15, 15])], 100)
    expect(told(pages)).toEqual(['a1', 'h1 b1 b2'])
  })

  it('keeps two headings in a row with what follows them', () => {
    const pages = paginate(
      [
        flowOf('a', [50]),
        flowOf('h', [20], { keepNext: true }),
        flowOf('i', [20], { keepNext: true }),
        flowOf('b', [20])
      ],
      100
    )
    expect(told(pages)).toEqual(['a1', 'h1 i1 b1'])
  })

  it('does not cut a whole flow that fits in half a page', () => {
    expect(told(paginate([flowOf('a', [60]), flowOf('b', [20, 25], { whole: 0.5 })], 100))).toEqual(['a1', 'b1 b2'])
  })

  it('cuts a longer one behind its head, with its repeated strip on top of the next page', () => {
    const repeat = slab('again', 10)
    const pages = paginate([flowOf('b', [20, 20, 20, 20, 20, 20], { whole: 0.5, head: 2, repeat, repeatFrom: 1 })], 100)
    expect(told(pages)).toEqual(['b1 b2 b3 b4', 'again b5 b6'])
  })

  it('does not begin what has no room for its head', () => {
    expect(told(paginate([flowOf('a', [70]), flowOf('b', [20, 20, 60], { head: 2 })], 100))).toEqual(['a1', 'b1 b2 b3'])
  })

  it('leaves no last strip alone at the top of a page', () => {
    expect(told(paginate([flowOf('b', [30, 30, 30, 20])], 100))).toEqual(['b1 b2', 'b3 b4'])
  })

  it('cuts even a head that is longer than a page', () => {
    expect(told(paginate([flowOf('b', [60, 60, 60], { head: 3 })], 100))).toEqual(['b1', 'b2', 'b3'])
  })

  it('cuts anew what can begin behind its heading in the rest of a page, and only there', () => {
    const heading = (name: string) => flowOf(name, [10], { keepNext: true })
    const map = flowOf('b', [10, 80], { head: 2, refit: (room) => flowOf(`in ${room}: b`, [10, 30, 50], { head: 2 }) })
    expect(told(paginate([flowOf('a', [40]), heading('h'), map], 100))).toEqual([
      'a1 h1 in 50: b1 in 50: b2',
      'in 50: b3'
    ])
    // Where it does not fit even so, or fits as it is, nothing is cut.
    expect(told(paginate([flowOf('a', [60]), heading('h'), map], 100))).toEqual(['a1', 'h1 b1 b2'])
    expect(told(paginate([heading('h'), map], 100))).toEqual(['h1 b1 b2'])
  })
})
