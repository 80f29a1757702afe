/** A number on a picture; its place in shares of width and height from the upper left corner. */
export interface Callout {
  readonly number: string
  readonly x: number
  readonly y: number
  readonly text: string
}

export interface Captioned {
  readonly caption: string
  readonly callouts: readonly Callout[]
}

/**
 * Callouts are written in the alternate text, so that they can be read where no picture is shown:
 * `Left door of the cabinet; 1 at 30 40: handle of Q1; 2 at 62 18: hasp for the lock`. The two figures are
 * percent of the width and of the height, from the upper left corner. What is not of this form is caption.
 */
export function calloutsOf(alternate: string): Captioned {
  const callouts: Callout[] = []
  const caption: string[] = []
  for (const part of alternate.split(';')) {
    const [, number, x, y, text] = /^\s*(\w{1,2}) at (\d{1,3})[ ,]+(\d{1,3}):\s*(.+?)\s*$/s.exec(part) ?? []
    const place = [Number(x), Number(y)]
    if (number === undefined || text === undefined || place.some((each) => !(each <= 100))) caption.push(part)
    else callouts.push({ number, x: Number(x) / 100, y: Number(y) / 100, text })
  }
  return { caption: caption.join(';').trim(), callouts }
}
