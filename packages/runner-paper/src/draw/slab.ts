import type { Pen } from './pen.js'

/** A strip of the page that is never cut, drawn from its upper left corner. */
export interface Slab {
  readonly height: number
  readonly draw: (pen: Pen, x: number, y: number) => void
}

/** Strips that belong together and how they may be cut between pages. */
export interface Flow {
  /** Space before it, left out at the top of a page. */
  readonly before: number
  readonly slabs: readonly Slab[]
  /** Never cut where it is not longer than this share of a page. */
  readonly whole: number
  /** So many strips at its beginning stay together. */
  readonly head: number
  /** Drawn again at the top of each further page, once `repeatFrom` strips have been placed. */
  readonly repeat: Slab | null
  readonly repeatFrom: number
  /** Its end stays with the beginning of what follows. */
  readonly keepNext: boolean
  /** Begins on a new page, unless little stands on this one. */
  readonly turn: boolean
  /** The same cut otherwise, so that it begins in the rest of a page; null where that much room is too little. */
  readonly refit: ((room: number) => Flow) | null
}

/** A flow of strips with nothing special about it. */
export function flow(slabs: readonly Slab[], extra: Partial<Flow> = {}): Flow {
  return {
    before: 0,
    slabs,
    whole: 0,
    head: 1,
    repeat: null,
    repeatFrom: Number.POSITIVE_INFINITY,
    keepNext: false,
    turn: false,
    refit: null,
    ...extra
  }
}

export function heightOf(slabs: readonly Slab[]): number {
  return slabs.reduce((sum, slab) => sum + slab.height, 0)
}

/** An empty strip. */
export function gap(height: number): Slab {
  return { height, draw: () => {} }
}
