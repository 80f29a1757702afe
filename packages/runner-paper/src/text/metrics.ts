import type { Run } from '@lockwright/language'

export type Face = 'regular' | 'bold' | 'oblique'

/** Widths of a set of fonts, in points. */
export interface Metrics {
  readonly width: (text: string, face: Face, size: number) => number
}

/** The face in which a run is set where its surroundings are set in `base`. */
export function faceOf(run: Run, base: Face): Face {
  switch (run.kind) {
    case 'strong':
      return 'bold'
    case 'emphasis':
      return 'oblique'
    case 'text':
    case 'code':
    case 'ref':
    case 'break':
      return base
  }
}
