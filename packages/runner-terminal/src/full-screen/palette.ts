import type { Tone } from './row.js'

/** How the terminal library sets a line apart. */
export interface Look {
  readonly bold?: boolean
  readonly inverse?: boolean
  readonly color?: 'red' | 'green' | 'yellow' | 'black' | 'white' | 'blue'
  readonly backgroundColor?: 'red' | 'yellow' | 'blue'
}

export type Palette = Readonly<Record<Tone, Look>>

/**
 * Colours are an addition: bold and reversed video set apart what is set apart, on any background. Red alone reads on
 * light and on dark; green and yellow vanish on white, so they stand only on a background that is known to be dark or
 * is drawn with them. Headings of notices have the colours of ISO 3864-4 for red, yellow and blue; from memory.
 */
export function paletteOf(env: NodeJS.ProcessEnv): Palette {
  const dark = backgroundOf(env) === 'dark'
  return {
    plain: {},
    strong: { bold: true },
    faint: {},
    figure: {},
    alarm: { bold: true },
    danger: { bold: true, color: 'white', backgroundColor: 'red' },
    warning: { bold: true, color: 'black', backgroundColor: 'yellow' },
    caution: { bold: true, color: 'black', backgroundColor: 'yellow' },
    notice: { bold: true, color: 'white', backgroundColor: 'blue' },
    live: { bold: true, color: 'red' },
    dead: dark ? { color: 'green' } : {}
  }
}

/** Where the terminal says nothing of colours, reversed video takes their place. */
export const withoutColours: Palette = {
  plain: {},
  strong: { bold: true },
  faint: {},
  figure: {},
  alarm: { bold: true },
  danger: { bold: true, inverse: true },
  warning: { bold: true, inverse: true },
  caution: { bold: true, inverse: true },
  notice: { bold: true, inverse: true },
  live: { bold: true },
  dead: {}
}

/** Many terminals say in COLORFGBG which of the sixteen colours their background has: `15;0` is white on black. */
function backgroundOf(env: NodeJS.ProcessEnv): 'dark' | 'light' | 'unknown' {
  const last = (env['COLORFGBG'] ?? '').split(';').at(-1) ?? ''
  if (!/^\d+$/.test(last)) return 'unknown'
  const background = Number(last)
  return background === 7 || background >= 9 ? 'light' : 'dark'
}
