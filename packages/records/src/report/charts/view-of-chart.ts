import type { Chart, ChartMark } from './chart.js'

const fills = { empty: 'none', light: '#ccc', dark: 'currentColor' } as const
const dashes = (dash: number): string => (dash === 0 ? 'none' : String(dash))
const rounded = (value: number): string => String(Math.round(value * 100) / 100)

/** A chart as a template draws it: every value is plain text, and each mark is one of four. */
export function viewOfChart({ id, title, width, height, marks, alternate }: Chart) {
  return { id, title, viewBox: `0 0 ${width} ${height}`, alternate, marks: marks.map(viewOfMark) }
}

function viewOfMark(mark: ChartMark) {
  const none = { box: '', line: '', ring: '', text: '' }
  switch (mark.kind) {
    case 'box': {
      const { x, y, width, height, fill } = mark
      const sides = { x: rounded(x), y: rounded(y), width: rounded(width), height: rounded(height) }
      return { ...none, box: { ...sides, fill: fills[fill] } }
    }
    case 'line': {
      const points = mark.points.map(([x, y]) => `${rounded(x)},${rounded(y)}`).join(' ')
      return { ...none, line: { points, weight: String(mark.weight), dash: dashes(mark.dash) } }
    }
    case 'ring':
      return { ...none, ring: { x: rounded(mark.x), y: rounded(mark.y), radius: String(mark.radius) } }
    case 'text': {
      const { x, y, text, size, anchor, bold } = mark
      const weight = bold ? 'bold' : 'normal'
      return { ...none, text: { x: rounded(x), y: rounded(y), says: text, size: String(size), anchor, weight } }
    }
  }
}
