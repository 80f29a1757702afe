import type { Block } from '../blocks/block.js'
import { stress } from '../text/say.js'
import { cardFlow } from './card-flow.js'
import { contentSlabs } from './content-slabs.js'
import { legendFlow, panelFlow, ticksFlow } from './front-flows.js'
import { plotsFlow } from './plots-flow.js'
import { type Setting, setLines } from './setting.js'
import { type Flow, flow, type Slab } from './slab.js'
import { columnOf, leading, type } from './style.js'
import { tableSlabs } from './table-slabs.js'
import { tag } from './tag.js'
import { titleFlow } from './title-flow.js'

/** Measures the blocks: each becomes strips that can be put on pages. */
export function flowsOf(blocks: readonly Block[], letterhead: string, setting: Setting): readonly Flow[] {
  let level = 1
  return blocks.map((block, index) => {
    if (block.kind === 'heading') level = block.level
    const made = flowOf(block, level, letterhead, setting)
    if (block.kind !== 'content') return made
    // A sentence over a table belongs to it, and one under it does not touch its rule.
    const before = blocks[index - 1]?.kind === 'table' ? 4 : made.before
    return { ...made, before, keepNext: blocks[index + 1]?.kind === 'table' }
  })
}

function flowOf(block: Block, level: number, letterhead: string, setting: Setting): Flow {
  const width = columnOf(setting.page)
  switch (block.kind) {
    case 'title':
      return titleFlow(block, letterhead, setting)
    case 'heading':
      return headingFlow(block.level, block.text, setting)
    case 'content':
      return flow(contentSlabs(block.content, width, setting, tag('Sect', null), type.small))
    case 'panel':
      return panelFlow(block, setting)
    case 'table': {
      const { head, rows } = tableSlabs(block, width, setting, tag('Sect', null))
      return flow([head, ...rows], {
        whole: 0.5,
        head: 2,
        repeat: head,
        repeatFrom: 2,
        keepNext: block.keepNext ?? false
      })
    }
    case 'ticks':
      return ticksFlow(block, setting)
    case 'plots':
      return plotsFlow(block, setting)
    case 'legend':
      return legendFlow(block, setting)
    case 'step':
      return cardFlow(block.card, level + 1, setting)
  }
}

function headingFlow(level: 1 | 2 | 3, text: string, setting: Setting): Flow {
  const size = type.heading[level - 1] ?? type.body
  const lines = setLines(stress(text), columnOf(setting.page), size, setting, 'bold')
  const slab: Slab = {
    height: lines.length * leading(size) + 4,
    draw: (pen, x, y) => {
      pen.bookmark(level - 1, text, y)
      pen.under(tag(`H${level}`, null), () => pen.lines(lines, x, y, size))
    }
  }
  return flow([slab], { before: level === 2 ? 9 : 6, keepNext: true })
}
