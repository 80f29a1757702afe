import { type CurvePlotOptions, curvePlot, type PlotMark, type PlotPoint, type PlotUse } from './curve-plot.js'
import type { DecayCurve } from './curve-points.js'

/** Dark enough for a photocopy; what differs is told apart by dash and width, not by colour alone. */
const styles: Readonly<Record<PlotUse, string>> = {
  axis: 'stroke="#222222" stroke-width="1"',
  grid: 'stroke="#dddddd" stroke-width="0.5"',
  slow: 'stroke="#1a3d6d" stroke-width="2"',
  fast: 'stroke="#1a3d6d" stroke-width="1" stroke-dasharray="2 3"',
  safe: 'stroke="#7a1f1f" stroke-width="1.5" stroke-dasharray="8 4"',
  wait: 'stroke="#7a1f1f" stroke-width="1" stroke-dasharray="4 4"'
}

/** The decay curve as one SVG picture, complete in itself; the same bytes for the same curve. */
export function curveSvg(curve: DecayCurve, options: CurvePlotOptions = {}): string {
  const { width, height, title, description, marks } = curvePlot(curve, options)
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" width="${width}" height="${height}" role="img" font-family="sans-serif" font-size="11">`,
    `<title>${escaped(title)}</title>`,
    `<desc>${escaped(description)}</desc>`,
    `<rect width="${width}" height="${height}" fill="#ffffff"/>`,
    ...marks.map(markSvg),
    '</svg>',
    ''
  ].join('\n')
}

function markSvg(mark: PlotMark): string {
  switch (mark.kind) {
    case 'area':
      return `<polygon points="${listed(mark.points)}" fill="#c9d6e8" stroke="none"/>`
    case 'line':
      return `<polyline points="${listed(mark.points)}" fill="none" ${styles[mark.use]}/>`
    case 'text':
      return `<text x="${mark.at.x}" y="${mark.at.y}" text-anchor="${mark.anchor}" fill="#222222">${escaped(mark.text)}</text>`
  }
}

function listed(points: readonly PlotPoint[]): string {
  return points.map(({ x, y }) => `${x},${y}`).join(' ')
}

function escaped(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;')
}
