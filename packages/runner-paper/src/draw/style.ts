import type { Paper } from '../print-options.js'

/** Lengths in points. */
export interface Page {
  readonly width: number
  readonly height: number
  readonly left: number
  readonly right: number
  readonly top: number
  readonly bottom: number
}

const sizes = { a4: [595.28, 841.89], letter: [612, 792], a3: [841.89, 1190.55] } as const

/** Width and height of an upright sheet: ISO 216 and ANSI/ASME Y14.1, in points. */
export function paperSize(paper: Paper | 'a3'): readonly [number, number] {
  return sizes[paper]
}

export function pageOf(paper: Paper): Page {
  const [width, height] = sizes[paper]
  return { width, height, left: 46, right: 40, top: 58, bottom: 50 }
}

/** The width between the margins. */
export function columnOf({ width, left, right }: Page): number {
  return width - left - right
}

export const type = {
  title: 16,
  heading: [16, 12.5, 10.5],
  body: 9.5,
  step: 10.5,
  small: 8,
  table: 8,
  tiny: 6.5
} as const

/** Distance from one baseline to the next. */
export function leading(size: number): number {
  return size * 1.28
}

/** Panels of the signal words after ANSI Z535.4; each also has a frame weight of its own, so that grey print tells them apart. */
export const signals = {
  danger: { panel: '#9B2423', ink: '#FFFFFF', frame: 2.5, alert: true, degree: 3 },
  warning: { panel: '#D05D29', ink: '#000000', frame: 1.75, alert: true, degree: 2 },
  caution: { panel: '#F9A800', ink: '#000000', frame: 1, alert: true, degree: 1 },
  notice: { panel: '#005387', ink: '#FFFFFF', frame: 0.5, alert: false, degree: 0 }
} as const

export const grey = { rule: '#999999', fill: '#E6E6E6', draft: '#E8E8E8' } as const
