import type { Content, Runs } from '@lockwright/language'
import { say } from '../text/say.js'
import { pictureSlab } from './picture-slab.js'
import { indented, lineSlabs, type Setting, setLines } from './setting.js'
import type { Slab } from './slab.js'
import { grey, leading, type } from './style.js'
import { tableSlabs } from './table-slabs.js'
import { type Tag, tag } from './tag.js'

const indent = 16
const after = 3

/** Prose of the procedure as strips. Nothing of it is left out; a picture is told by its alternate text. */
export function contentSlabs(
  content: readonly Content[],
  width: number,
  setting: Setting,
  node: Tag,
  size: number = type.body
): readonly Slab[] {
  return content.flatMap((part): readonly Slab[] => {
    switch (part.kind) {
      case 'paragraph':
        return lineSlabs(setLines(part.runs, width, size, setting), size, tag('P', node), after)
      case 'list':
        return listSlabs(part, width, setting, node, size)
      case 'table': {
        const columns = part.header.map(() => ({ head: '', share: 1 }))
        const heads = part.header.map((runs): Runs => runs)
        const set = tableSlabs(
          { columns, heads, rows: part.rows.map((row) => row.map((cell) => [cell])), writing: false },
          width,
          setting,
          node
        )
        return [set.head, ...set.rows, { height: after, draw: () => {} }]
      }
      case 'quote':
        return contentSlabs(part.content, width - indent, setting, tag('BlockQuote', node), size).map((slab) => ({
          height: slab.height,
          draw: (pen, x, y) => {
            pen.decor(() => pen.rectangle(x + 4, y, 2, slab.height, { fill: grey.rule }))
            slab.draw(pen, x + indent, y)
          }
        }))
      case 'code':
        return part.text
          .split('\n')
          .flatMap((line) => lineSlabs(setLines(say(line), width, size, setting), size, tag('P', node), 0))
      case 'image':
        return [pictureSlab(part.alternate, part.source, width, setting, node)]
      case 'rule':
        return [
          {
            height: 6,
            draw: (pen, x, y) =>
              pen.decor(() =>
                pen.path(
                  [
                    [x, y + 2],
                    [x + width, y + 2]
                  ],
                  { stroke: grey.rule }
                )
              )
          }
        ]
    }
  })
}

function listSlabs(
  list: Extract<Content, { kind: 'list' }>,
  width: number,
  setting: Setting,
  node: Tag,
  size: number
): readonly Slab[] {
  const parent = tag('L', node)
  return list.items.flatMap((item, index) => {
    const entry = tag('LI', parent)
    const sign = list.ordered ? `${list.start + index}.` : '–'
    const body = contentSlabs(item, width - indent, setting, tag('LBody', entry), size).map((slab) =>
      indented(slab, indent)
    )
    const [first = { height: leading(size), draw: () => {} }, ...rest] = body
    const marked: Slab = {
      height: first.height,
      draw: (pen, x, y) => {
        pen.under(tag('Lbl', entry), () => pen.label(`${sign} `, x, y, size))
        first.draw(pen, x, y)
      }
    }
    return [marked, ...rest]
  })
}
