import { boosterPump } from '../booster-pump.fixture.js'
import { english } from '../catalog.js'
import type { PrintOptions } from '../print-options.js'
import { buildSheet } from '../sheet/build-sheet.js'
import type { Block, Card, Row } from './block.js'
import { layOut } from './lay-out.js'

export const digest = 'ab12'.repeat(16)
export const draft: PrintOptions = { paper: 'a4', issue: { kind: 'draft' }, digest }

export function laidOut(machine = boosterPump(), options: PrintOptions = draft): readonly Block[] {
  return layOut(buildSheet(machine, options.for), options, english)
}

export function cards(blocks: readonly Block[]): readonly Card[] {
  return blocks.flatMap((block) => (block.kind === 'step' ? [block.card] : []))
}

export function card(blocks: readonly Block[], title: string): Card {
  const found = cards(blocks).find((each) => each.title === title)
  if (found === undefined) throw new Error(`no step ${title}`)
  return found
}

/** Every string of the blocks, in reading order. */
export function strings(value: unknown): readonly string[] {
  if (typeof value === 'string') return [value.replaceAll('\u00A0', ' ')]
  if (Array.isArray(value)) return value.flatMap(strings)
  return value === null || typeof value !== 'object' ? [] : Object.values(value).flatMap(strings)
}

export function entries(rows: readonly Row[]): readonly Extract<Row, { kind: 'entry' }>[] {
  return rows.filter((row) => row.kind === 'entry')
}
