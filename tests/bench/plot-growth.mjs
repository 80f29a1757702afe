/** Growth as a drawing: one panel for each series of measurements, both scales logarithmic. Plain SVG, no library. */

const panel = { width: 430, height: 320, left: 70, top: 70, gap: 110 }

/** `panels`: title, x label, and lines of `[x, y]` points with a name and a dash pattern. */
export function plotGrowth(title, yLabel, panels) {
  const points = panels.flatMap(({ lines }) => lines.flatMap((line) => line.points))
  const ys = decades(points.map(([, y]) => y))
  const width = panel.left + panels.length * (panel.width + panel.gap)
  const height = panel.top + panel.height + 150
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" font-family="Helvetica, Arial, sans-serif" font-size="12">`,
    `<rect width="${width}" height="${height}" fill="#fff"/>`,
    `<text x="${panel.left}" y="30" font-size="16" font-weight="bold">${escaped(title)}</text>`,
    ...panels.flatMap((one, index) => drawPanel(one, panel.left + index * (panel.width + panel.gap), ys, yLabel)),
    '</svg>',
    ''
  ].join('\n')
}

function drawPanel({ title, xLabel, lines }, left, [low, high], yLabel) {
  const all = lines.flatMap((line) => line.points.map(([x]) => x))
  const [first, last] = [Math.min(...all), Math.max(...all)]
  const x = (value) => left + (panel.width * Math.log(value / first)) / Math.log(last / first)
  const y = (value) => panel.top + panel.height - (panel.height * (Math.log10(value) - low)) / Math.max(1, high - low)
  const rows = Array.from({ length: high - low + 1 }, (_, index) => 10 ** (low + index))
  const ticks = [...new Set(lines[0].points.map(([value]) => value))].filter(
    (_, index, list) => index % Math.ceil(list.length / 8) === 0
  )
  return [
    `<text x="${left}" y="${panel.top - 14}" font-weight="bold">${escaped(title)}</text>`,
    `<rect x="${left}" y="${panel.top}" width="${panel.width}" height="${panel.height}" fill="none" stroke="#111"/>`,
    ...rows.flatMap((value) => [
      `<path d="M${left} ${y(value)}h${panel.width}" stroke="#ccc"/>`,
      `<text x="${left - 8}" y="${y(value) + 4}" text-anchor="end">${value >= 1 ? value.toLocaleString('en') : value}</text>`
    ]),
    ...ticks.map(
      (value) => `<text x="${x(value)}" y="${panel.top + panel.height + 18}" text-anchor="middle">${value}</text>`
    ),
    `<text x="${left + panel.width / 2}" y="${panel.top + panel.height + 38}" text-anchor="middle">${escaped(xLabel)}</text>`,
    `<text transform="translate(${left - 56} ${panel.top + panel.height / 2}) rotate(-90)" text-anchor="middle">${escaped(yLabel)}</text>`,
    ...lines.flatMap(({ name, dash, points }, index) => [
      `<polyline fill="none" stroke="#111" stroke-width="1.6" stroke-dasharray="${dash}" points="${points.map(([px, py]) => `${x(px).toFixed(1)},${y(py).toFixed(1)}`).join(' ')}"/>`,
      `<path d="M${left} ${panel.top + panel.height + 60 + 18 * index}h40" stroke="#111" stroke-width="1.6" stroke-dasharray="${dash}"/>`,
      `<text x="${left + 50}" y="${panel.top + panel.height + 64 + 18 * index}">${escaped(name)}</text>`
    ])
  ]
}

function decades(values) {
  return [Math.floor(Math.log10(Math.min(...values))), Math.ceil(Math.log10(Math.max(...values)))]
}

function escaped(text) {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;')
}
