import type { FlowExit, FlowNode } from './flow-of.js'
import { widthOf, wrapText } from './measure-text.js'

/** Sizes in pixels of the drawing. */
export const titleSize = 13
export const factsSize = 10.5
export const titleLine = 16
export const factsLine = 14
const plainWidth = 268
const cellWidth = 140
const padding = 9
export const pillHeight = 18
const pillSpace = 24
const fromSpace = 13

/** A way out as it is drawn: by a line to a step below it in the same section, or by the number of the step. */
export interface Port {
  readonly exit: FlowExit
  readonly byLine: boolean
  /** Where it leads, in words; for a way that no line is drawn for. */
  readonly leadsTo: string
  readonly lines: readonly string[]
  /** From the left edge of the box to the middle of the way out. */
  readonly x: number
  readonly width: number
}

/** A step with its texts set: everything but where it stands. */
export interface NodeBox {
  readonly node: FlowNode
  readonly width: number
  /** With what is written above and below the shape. */
  readonly height: number
  /** From the top to where lines leave it. */
  readonly lineFrom: number
  /** Where the texts begin, behind the number. */
  readonly badge: number
  /** The shape alone, from `top`. */
  readonly top: number
  readonly shapeHeight: number
  readonly title: readonly string[]
  readonly facts: readonly string[]
  /** From where else one comes here. */
  readonly from: string
  readonly ports: readonly Port[]
  /** Height of the row of answers; 0 where there is only one way on. */
  readonly cellHeight: number
}

/** What a step has to know of the rest of the drawing. */
export interface Around {
  /** Whether the way out is drawn as a line. */
  readonly byLine: (exit: FlowExit) => boolean
  /** The section in which a step stands; empty where it is this one. */
  readonly sectionOf: (number: number) => string
  /** Numbers of the steps that lead here without a line. */
  readonly from: readonly number[]
}

export function boxOf(node: FlowNode, { byLine, sectionOf, from }: Around): NodeBox {
  const ways = node.exits.filter(({ late }) => !late)
  const cells = ways.length > 1 || ways.some(({ label }) => label !== null)
  const width = Math.max(plainWidth, cells ? ways.length * cellWidth : 0)
  const share = width / Math.max(1, ways.length)
  const ports = ways.map(
    (exit, index): Port => ({
      exit,
      byLine: byLine(exit),
      leadsTo: wrapText(`→ ${exit.to}  ${sectionOf(exit.to)}`, share - 22, factsSize, 1).join(''),
      lines: cells ? wrapText(exit.label ?? '', share - 14, factsSize + 0.5, 3) : [],
      x: share * (index + 0.5),
      width: share
    })
  )
  const badge = Math.max(32, 16 + 8 * String(node.number).length)
  const textWidth = width - badge - 2 * padding - (['secures', 'restores', 'end'].includes(node.role) ? 14 : 0)
  const facts = factsOf(node).flatMap((line) => wrapText(line, textWidth, factsSize, 2))
  const title = wrapText(node.state.title, textWidth, titleSize, 3)
  const cellHeight = cells ? 8 + factsLine * Math.max(...ports.map(({ lines }) => lines.length)) : 0
  const shapeHeight = 2 * padding + titleLine * title.length + factsLine * facts.length + cellHeight
  const top = from.length > 0 ? fromSpace : 0
  return {
    node,
    width,
    badge,
    lineFrom: top + shapeHeight,
    height: top + shapeHeight + (ports.some((port) => !port.byLine) ? pillSpace : 0),
    top,
    shapeHeight,
    title,
    facts,
    from: from.length > 0 ? wrapText(`from ${from.join(', ')}`, width / 2 - 16, factsSize, 1).join('') : '',
    ports,
    cellHeight
  }
}

function factsOf({ facts, copyOf, state, exits }: FlowNode): readonly string[] {
  // A copy is told short: all else stands at the step of which it is one.
  const told =
    copyOf === null
      ? [
          facts.map((fact) => fact.replaceAll(' ', '\u00a0')).join(' · '),
          ...state.notices.map(({ word, label }) => `${word.toUpperCase()}${label === '' ? '' : `: ${label}`}`)
        ]
      : [`as step ${copyOf}`]
  return [...told, ...exits.filter(({ late }) => late).map(({ to, label }) => `${label} → ${to}`)]
}

/** Width of the small label that names where a way leads. */
export function pillWidth({ leadsTo }: Port): number {
  return widthOf(leadsTo, factsSize) + 14
}
