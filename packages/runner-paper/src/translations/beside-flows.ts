import type { Block } from '../blocks/block.js'
import type { Catalog } from '../catalog.js'
import { flowsOf } from '../draw/flows.js'
import type { Pen } from '../draw/pen.js'
import type { Setting } from '../draw/setting.js'
import { type Flow, heightOf, type Slab } from '../draw/slab.js'
import { columnOf, type Page, pageOf } from '../draw/style.js'
import { type Tag, tag } from '../draw/tag.js'
import type { Paper } from '../print-options.js'
import { pairedBlocks } from './text-only.js'

/** The second language of a sheet: what is read beside what is filled in. */
export interface Beside {
  readonly blocks: readonly Block[]
  readonly catalog: Catalog
  /** BCP 47, of the text in the blocks. */
  readonly language: string
}

/** The page on its side, so that both columns are wide enough to read. */
export function besidePage(paper: Paper): Page {
  const page = pageOf(paper)
  return { ...page, width: page.height, height: page.width }
}

const between = 16
/** How far the right column may reach under the end of the left one before it becomes a strip that can be cut. */
const overhang = 180
/** Of the width, for the language that is filled in. */
const share = 0.56

/** Both languages beside each other, step by step: the left column is filled in, the right one only read. */
export function besideFlows(
  filled: readonly Block[],
  beside: Beside,
  letterhead: string,
  setting: Setting
): readonly Flow[] {
  const { page } = setting
  const whole = columnOf(page)
  const left = Math.round(whole * share)
  const right = whole - left - between
  const pairs = pairedBlocks(filled, beside.blocks)
  const narrow = (width: number): Page => ({ ...page, right: page.width - page.left - width })
  const lefts = flowsOf(
    pairs.map((pair) => pair.filled),
    letterhead,
    { ...setting, page: narrow(left) }
  )
  const rights = flowsOf(
    pairs.map((pair) => pair.read),
    '',
    { ...setting, catalog: beside.catalog, page: narrow(right) }
  )
  const column: Column = { by: left + between, language: beside.language, roots: new Map() }
  return lefts.map((flow, index) => joined(flow, rights[index], column, pairs[index]?.filled.kind === 'table'))
}

/** Where the second language stands, and how it is read out. */
interface Column {
  readonly by: number
  readonly language: string
  readonly roots: Map<Tag, Tag>
}

function joined(flow: Flow, other: Flow | undefined, column: Column, rows: boolean): Flow {
  if (other === undefined) return flow
  const read = other.slabs.map((slab) => readSlab(slab, column))
  const { slabs, ends } = aligned(flow.slabs, read, rows)
  const upTo = (count: number): number =>
    Number.isFinite(count) ? Math.max(1, ends.findIndex((end) => end >= Math.min(count, flow.slabs.length)) + 1) : count
  const repeated = other.repeat === null ? [] : [readSlab(other.repeat, column)]
  const repeat = flow.repeat === null ? null : stackedBeside([flow.repeat], repeated)
  const refit = flow.refit === null ? null : (room: number) => joined(flow.refit?.(room) ?? flow, other, column, rows)
  return { ...flow, slabs, head: upTo(flow.head), repeatFrom: upTo(flow.repeatFrom), repeat, refit }
}

/**
 * Strips of both columns as strips of the page: a strip ends where both columns can be cut. `ends` tells how many
 * strips of the left column each takes in. `rows`: as the rows of a table, one for one.
 */
function aligned(
  left: readonly Slab[],
  right: readonly Slab[],
  rows: boolean
): { readonly slabs: readonly Slab[]; readonly ends: readonly number[] } {
  if (rows && left.length === right.length)
    return {
      slabs: left.map((slab, index) => stackedBeside([slab], right.slice(index, index + 1))),
      ends: left.map((_, index) => index + 1)
    }
  const slabs: Slab[] = []
  const ends: number[] = []
  let [at, other] = [0, 0]
  while (at < left.length || other < right.length) {
    const own: Slab[] = []
    const beside: Slab[] = []
    do {
      const next = left[at]
      if (next !== undefined) {
        own.push(next)
        at += 1
      } else {
        const more = right[other]
        if (more !== undefined) {
          beside.push(more)
          other += 1
        }
      }
      for (let more = right[other]; more !== undefined; more = right[other]) {
        if (heightOf(beside) + more.height > heightOf(own)) break
        beside.push(more)
        other += 1
      }
      // What stands beside is behind by more than a line: the strip goes on, so that both keep step.
    } while (at < left.length && other < right.length && heightOf(own) - heightOf(beside) > 14)
    // At the end of the left column what is left of the right one begins beside it, not under it.
    const enough = heightOf(own) + overhang
    for (let more = right[other]; at === left.length && more !== undefined; more = right[other]) {
      if (own.length > 0 && heightOf(beside) + more.height > enough) break
      beside.push(more)
      other += 1
    }
    slabs.push(stackedBeside(own, beside))
    ends.push(at)
  }
  return { slabs, ends }
}

function stackedBeside(own: readonly Slab[], beside: readonly Slab[]): Slab {
  return {
    height: Math.max(heightOf(own), heightOf(beside)),
    draw: (pen, x, y) => {
      for (const column of [own, beside]) {
        let down = y
        for (const slab of column) {
          slab.draw(pen, x, down)
          down += slab.height
        }
      }
    }
  }
}

/** Drawn further right, read out in its own language, and without bookmarks: those are of the language filled in. */
function readSlab(slab: Slab, { by, language, roots }: Column): Slab {
  return {
    height: slab.height,
    draw: (pen, x, y) => slab.draw(inLanguage(pen, language, roots), x + by, y)
  }
}

function inLanguage(pen: Pen, language: string, roots: Map<Tag, Tag>): Pen {
  const moved = (node: Tag): Tag => {
    const known = roots.get(node)
    if (known !== undefined) return known
    const parent = node.parent === null ? tag('Sect', null, { lang: language }) : moved(node.parent)
    const made = tag(node.type, parent, node.options)
    roots.set(node, made)
    return made
  }
  return {
    ...pen,
    get page() {
      return pen.page
    },
    under: (node, draw) => pen.under(moved(node), draw),
    bookmark: () => {}
  }
}
