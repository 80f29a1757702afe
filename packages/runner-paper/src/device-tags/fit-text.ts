import type { Runs } from '@lockwright/language'
import { type Setting, setLines } from '../draw/setting.js'
import { leading } from '../draw/style.js'
import type { Line } from '../text/break-lines.js'
import type { Face } from '../text/metrics.js'

/** Text set at the largest size that fits. */
export interface FittedText {
  readonly lines: readonly Line[]
  readonly size: number
  readonly height: number
  /** False: even at the smallest size it does not fit. */
  readonly fits: boolean
}

/** The smallest size on a tag or a label, in points: common practice, no source. */
export const smallestSize = 5.5

/** Sets a text in a box of so many points, from the size wished for down to the smallest that is legible. */
export function fitText(
  runs: Runs,
  box: { readonly width: number; readonly height: number },
  wished: number,
  setting: Setting,
  face: Face = 'regular'
): FittedText {
  for (let size = wished; ; size -= 0.5) {
    const lines = setLines(runs, box.width, Math.max(size, smallestSize), setting, face)
    const set = Math.max(size, smallestSize)
    const height = lines.length * leading(set)
    if (height <= box.height || size <= smallestSize)
      return { lines, size: set, height, fits: height <= box.height + 0.01 }
  }
}
