import type { Content, Runs } from '@lockwright/language'
import type { Block, Card, FlowRow, Row } from '../blocks/block.js'
import { paragraph, say, stress } from '../text/say.js'

/** A block as it is read beside the one that is filled in: the same words, and nothing to tick, sign or write in. */
export function textOnly(block: Block): Block {
  switch (block.kind) {
    case 'title':
      return {
        kind: 'content',
        content: [
          ...paragraph(say(block.kicker)),
          ...paragraph(stress(block.title)),
          ...block.facts
            .filter(({ value }) => !/^_+$/.test(value))
            .flatMap(({ label, value }) => paragraph([...stress(`${label}: `), ...say(value)]))
        ]
      }
    case 'table': {
      const { columns, rows } = block
      const kept = columns.flatMap((column, index) =>
        rows.some((row) => (row[index] ?? []).length > 0) ? [{ column, index }] : []
      )
      if (kept.length === 0) return { kind: 'content', content: headsOf(columns.map(({ head }) => head)) }
      const filled = rows.filter((row) => row.some((cell) => cell.length > 0))
      const blank = columns.filter((_, index) => !kept.some((each) => each.index === index)).map(({ head }) => head)
      return {
        kind: 'table',
        columns: kept.map(({ column, index }, at) => ({
          head: at === kept.length - 1 && blank.length > 0 ? `${column.head} (${blank.join('; ')})` : column.head,
          share: columns[index]?.share ?? 1
        })),
        rows: filled.map((row) => kept.map(({ index }) => row[index] ?? [])),
        writing: false
      }
    }
    case 'ticks':
      return {
        kind: 'content',
        content: [
          ...paragraph(stress(block.heading)),
          { kind: 'list', ordered: false, start: 1, items: block.items.map(({ text }) => paragraph(text)) }
        ]
      }
    case 'legend':
      return {
        kind: 'content',
        content: [
          { kind: 'list', ordered: false, start: 1, items: block.entries.map(({ text }) => paragraph(say(text))) }
        ]
      }
    case 'plots':
      return { kind: 'content', content: block.plots.flatMap(({ caption }) => paragraph(caption)) }
    case 'flow':
      return { kind: 'content', content: [...paragraph(say(block.tell)), ...titlesOf(block.rows)] }
    case 'step':
      return { kind: 'step', card: cardText(block.card) }
    case 'heading':
    case 'content':
    case 'panel':
      return block
  }
}

/** What the map says, without its lines: the sections, and under each its steps by number. */
function titlesOf(rows: readonly FlowRow[]): readonly Content[] {
  const parts: { heading: string; start: number; titles: string[] }[] = []
  for (const row of rows) {
    if (row.kind === 'exit') continue
    if (row.kind === 'heading') parts.push({ heading: row.text, start: 0, titles: [] })
    else {
      if (parts.length === 0) parts.push({ heading: '', start: 0, titles: [] })
      const part = parts.at(-1)
      if (part?.titles.length === 0) part.start = row.number
      part?.titles.push(row.rail === '' ? row.title : `${row.title} (${row.rail})`)
    }
  }
  return parts.flatMap(({ heading, start, titles }): readonly Content[] => [
    ...(heading === '' ? [] : paragraph(stress(heading))),
    ...(titles.length === 0
      ? []
      : [{ kind: 'list' as const, ordered: true, start, items: titles.map((title) => paragraph(say(title))) }])
  ])
}

function headsOf(heads: readonly string[]): readonly Content[] {
  return paragraph(say(heads.filter((head) => head !== '').join('; ')))
}

function cardText(card: Card): Card {
  const { initials: _initials, time: _time, ...rest } = card
  return {
    ...rest,
    name: '',
    signed: false,
    times: 0,
    notices: card.notices.map(({ field: _field, ...notice }) => notice),
    rows: card.rows.map(rowText)
  }
}

function rowText(row: Row): Row {
  switch (row.kind) {
    case 'content':
    case 'remark':
      return row
    case 'entry': {
      const labels = row.blanks.map(({ label }) => label).join('; ')
      const content = labels === '' ? row.content : [...row.content, ...paragraph(say(labels))]
      return { kind: 'content', content: row.mark === 'none' ? content : [listOf(content)] }
    }
    case 'readings': {
      const items = row.cells.map(({ label, limit }) => paragraph([...say(`${label}: `), ...stress(limit)]))
      const caption: readonly Content[] = row.caption === '' ? [] : paragraph(stress(row.caption))
      return { kind: 'content', content: [...caption, { kind: 'list', ordered: false, start: 1, items }] }
    }
    case 'way': {
      const text: Runs =
        row.go === '' ? row.text : [...row.text, ...say(row.text.length === 0 ? '→ ' : ' → '), ...stress(row.go)]
      return { kind: 'content', content: [listOf([...paragraph(text), ...row.says])] }
    }
  }
}

function listOf(content: readonly Content[]): Content {
  return { kind: 'list', ordered: false, start: 1, items: [content] }
}

const nothing: Block = { kind: 'content', content: [] }

/** Both languages block by block; where one has prose that the other lacks, the other stands empty beside it. */
export function pairedBlocks(
  filled: readonly Block[],
  read: readonly Block[]
): readonly { readonly filled: Block; readonly read: Block }[] {
  const pairs: { filled: Block; read: Block }[] = []
  let at = 0
  for (const block of filled) {
    while (read[at]?.kind === 'content' && block.kind !== 'content' && read[at]?.kind !== block.kind) {
      pairs.push({ filled: nothing, read: read[at] ?? nothing })
      at += 1
    }
    const other = read[at]
    if (other !== undefined && other.kind === block.kind) {
      pairs.push({ filled: block, read: textOnly(other) })
      at += 1
    } else pairs.push({ filled: block, read: nothing })
  }
  return [...pairs, ...read.slice(at).map((block) => ({ filled: nothing, read: textOnly(block) }))]
}
