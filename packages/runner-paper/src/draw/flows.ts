import type { Block, Card } from '../blocks/block.js'
import { stress } from '../text/say.js'
import { cardFlow } from './card-flow.js'
import { railed } from './card-frame.js'
import { contentSlabs } from './content-slabs.js'
import { flowDiagram } from './flow-diagram.js'
import { legendFlow, panelFlow, ticksFlow } from './front-flows.js'
import { plotsFlow } from './plots-flow.js'
import { type Setting, setLines } from './setting.js'
import { type Flow, flow, heightOf, type Slab } from './slab.js'
import { columnOf, leading, type } from './style.js'
import { tableSlabs } from './table-slabs.js'
import { tag } from './tag.js'
import { titleFlow } from './title-flow.js'

/** Measures the blocks: each becomes strips that can be put on pages. */
export function flowsOf(blocks: readonly Block[], letterhead: string, setting: Setting): readonly Flow[] {
  let level = 1
  return blocks.flatMap((block, index): readonly Flow[] => {
    if (block.kind === 'heading') level = block.level
    if (block.kind === 'step') return stepFlows(block.card, level + 1, setting)
    const made = flowOf(block, letterhead, setting)
    if (block.kind !== 'content') return [made]
    // A sentence over a table belongs to it, and one under it does not touch its rule.
    const before = blocks[index - 1]?.kind === 'table' ? 4 : made.before
    return [{ ...made, before, keepNext: blocks[index + 1]?.kind === 'table' }]
  })
}

function flowOf(block: Exclude<Block, { kind: 'step' }>, letterhead: string, setting: Setting): Flow {
  const width = columnOf(setting.page)
  switch (block.kind) {
    case 'title':
      return titleFlow(block, letterhead, setting)
    case 'heading':
      return { ...headingFlow(block.level, block.text, setting), turn: block.newPage ?? false }
    case 'content':
      // A formula stays with its figures and its source.
      return flow(contentSlabs(block.content, width, setting, tag('Sect', null), type.small), { whole: 0.25 })
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
    case 'flow':
      return flowDiagram(block, setting)
  }
}

/** Prose before a step that is longer than this goes by itself, so that the step is not cut for its sake. */
const longProse = 120

function stepFlows(card: Card, level: number, setting: Setting): readonly Flow[] {
  const { page } = setting
  const node = tag('Sect', null)
  const prose = contentSlabs(card.intro, columnOf(page), setting, node).map((slab) => railed(slab, card))
  if (heightOf(prose) <= longProse) return [cardFlow(card, level, setting)]
  const step = cardFlow({ ...card, intro: [] }, level, setting)
  const fits = heightOf(prose) + step.before + heightOf(step.slabs) <= page.height - page.top - page.bottom
  return [flow(prose, { before: 3, keepNext: fits }), step]
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
