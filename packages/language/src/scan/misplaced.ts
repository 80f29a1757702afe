import type { LineShape } from './line-shape.js'

export interface WrongPlace {
  readonly id: 'indented-directive' | 'directive-in-list' | 'directive-in-quote'
  readonly where: string
  readonly mend: string
}

/** Where a line of a directive stands that is no place for one; undefined where it is at the left edge. */
export function wrongPlaceOf(shape: LineShape, inList: boolean): WrongPlace | undefined {
  if (shape.markers.some(({ kind }) => kind === 'quote')) {
    return { id: 'directive-in-quote', where: 'in a quote', mend: 'Write the directive without `>` before it.' }
  }
  if (shape.markers.length > 0 || inList) {
    return {
      id: 'directive-in-list',
      where: 'in a list item',
      mend: 'Write the directive at the left edge, outside the list.'
    }
  }
  if (shape.indent > 3) {
    return {
      id: 'indented-directive',
      where: `behind ${shape.indent} columns of space`,
      mend: 'Write the directive at the left edge.'
    }
  }
  return undefined
}
