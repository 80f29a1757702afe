/** A point of a drawing: to the right and downwards from its upper left corner, in its own units. */
export type ChartPoint = readonly [number, number]

/**
 * What is to be drawn. There is no color in it: what has to be told apart differs in shape, in hatching and in words, so
 * that a photocopy shows it as well.
 */
export type ChartMark =
  | {
      readonly kind: 'box'
      readonly x: number
      readonly y: number
      readonly width: number
      readonly height: number
      readonly fill: ChartFill
    }
  | { readonly kind: 'line'; readonly points: readonly ChartPoint[]; readonly weight: number; readonly dash: number }
  | { readonly kind: 'ring'; readonly x: number; readonly y: number; readonly radius: number }
  | {
      readonly kind: 'text'
      /** The baseline, at the side that `anchor` names. */
      readonly x: number
      readonly y: number
      readonly text: string
      readonly size: number
      readonly anchor: 'start' | 'middle' | 'end'
      readonly bold: boolean
    }

/** `empty`: the paper; `light`: a light grey; `dark`: near black. */
export type ChartFill = 'empty' | 'light' | 'dark'

/** One chart, ready to be drawn by whoever can draw boxes, lines, rings and text. */
export interface Chart {
  readonly id: 'months' | 'deviations' | 'waits' | 'locks'
  readonly title: string
  readonly width: number
  readonly height: number
  readonly marks: readonly ChartMark[]
  /** What it shows, figures and all, for whoever does not see it. */
  readonly alternate: string
}

export const chartWidth = 480

export const lettering = 11

export function textAt(
  text: string,
  x: number,
  y: number,
  anchor: 'start' | 'middle' | 'end' = 'start',
  bold = false
): ChartMark {
  return { kind: 'text', x, y, text, size: lettering, anchor, bold }
}

export function lineOf(points: readonly ChartPoint[], weight = 0.75, dash = 0): ChartMark {
  return { kind: 'line', points, weight, dash }
}

export function boxOf(x: number, y: number, width: number, height: number, fill: ChartFill): ChartMark {
  return { kind: 'box', x, y, width, height, fill }
}

/** A box filled with slanting lines, each cut off where the box ends. */
export function hatched(x: number, y: number, width: number, height: number, apart = 5): readonly ChartMark[] {
  const marks: ChartMark[] = [boxOf(x, y, width, height, 'empty')]
  for (let offset = apart; offset < width + height; offset += apart) {
    const from: ChartPoint = offset <= height ? [x, y + offset] : [x + offset - height, y + height]
    const to: ChartPoint = offset <= width ? [x + offset, y] : [x + width, y + offset - width]
    marks.push(lineOf([from, to], 0.6))
  }
  return marks
}

/** A cross, to stand out among rings by its shape. */
export function crossAt(x: number, y: number, half = 4): readonly ChartMark[] {
  return [
    lineOf(
      [
        [x - half, y - half],
        [x + half, y + half]
      ],
      1.6
    ),
    lineOf(
      [
        [x - half, y + half],
        [x + half, y - half]
      ],
      1.6
    )
  ]
}

/** What is too long for its place ends in an ellipsis. */
export function shortened(text: string, longest: number): string {
  const characters = [...text]
  return characters.length <= longest ? text : `${characters.slice(0, longest - 1).join('')}…`
}

/** A round number that is not below the value: 1, 2 or 5 times a power of ten. */
export function roundUp(value: number): number {
  const power = 10 ** Math.floor(Math.log10(Math.max(value, 1)))
  return [1, 2, 5, 10].map((step) => step * power).find((step) => step >= value) ?? 10 * power
}
