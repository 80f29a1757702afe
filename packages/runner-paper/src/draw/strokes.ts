/** How a shape is filled and drawn. Lengths in points, colors as `#RRGGBB`. */
export interface Paint {
  readonly fill?: string
  readonly stroke?: string
  readonly weight?: number
  readonly dash?: number
  /** Paths only: joined back to the beginning. */
  readonly closed?: boolean
}

/** A path with the operators that paint it (ISO 32000-1, 8.4.4, 8.5.3 and 8.6.8). Each sets all that it needs. */
export function painted(path: string, { fill, stroke, weight = 0.75, dash }: Paint): string {
  const dashed = dash === undefined ? '' : `[${dash} ${dash}] 0 d `
  const solid = dash === undefined ? '' : ' [] 0 d'
  if (fill !== undefined && stroke === undefined) return `${inkOf(fill)} rg ${path} f`
  const drawn = `${inkOf(stroke ?? '#000000')} RG ${round(weight)} w ${dashed}`
  return fill === undefined ? `${drawn}${path} S${solid}` : `${drawn}${inkOf(fill)} rg ${path} B${solid}`
}

export function pathOf(points: readonly (readonly [number, number])[], closed: boolean): string {
  const drawn = points.map(([x, y], index) => `${round(x)} ${round(y)} ${index === 0 ? 'm' : 'l'}`).join(' ')
  return closed ? `${drawn} h` : drawn
}

/** Four curves; 0.5523 of the radius is the usual place of their handles. */
export function circle(x: number, y: number, radius: number): string {
  const bend = radius * 0.5523
  const at = (dx: number, dy: number): string => `${round(x + dx)} ${round(y + dy)}`
  return [
    `${at(radius, 0)} m`,
    `${at(radius, bend)} ${at(bend, radius)} ${at(0, radius)} c`,
    `${at(-bend, radius)} ${at(-radius, bend)} ${at(-radius, 0)} c`,
    `${at(-radius, -bend)} ${at(-bend, -radius)} ${at(0, -radius)} c`,
    `${at(bend, -radius)} ${at(radius, -bend)} ${at(radius, 0)} c h`
  ].join(' ')
}

const inks = new Map<string, string>()

/** The three parts of a color from 0 to 1. The sheet has a handful of colors. */
export function inkOf(color: string): string {
  let ink = inks.get(color)
  if (ink === undefined) {
    ink = [1, 3, 5].map((at) => round(Number.parseInt(color.slice(at, at + 2), 16) / 255)).join(' ')
    inks.set(color, ink)
  }
  return ink
}

/** Hundredths of a point are finer than any printer. */
export function round(value: number): number {
  return Math.round(value * 100) / 100
}
