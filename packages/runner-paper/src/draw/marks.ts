import type { StateKind } from '@lockwright/machine'
import type { Pen } from './pen.js'

/** The side of the square in which a mark is drawn. */
export const markSize = 11

/**
 * A small mark for what is done at a gate, of our own design: closed forms put something on, open ones take it
 * off. It only repeats the word beside it. Other kinds of step have none.
 */
export function drawMark(pen: Pen, kind: StateKind, x: number, y: number, ink: string): void {
  const side = markSize
  const thin = { stroke: ink, weight: 1.2 }
  switch (kind) {
    case 'lock':
      pen.rectangle(x + 1, y + 1, side - 2, side - 2, { fill: ink })
      return
    case 'unlock':
      pen.rectangle(x + 1.6, y + 1.6, side - 3.2, side - 3.2, thin)
      return
    case 'isolate':
      pen.path(
        [
          [x, y + side / 2],
          [x + 3, y + side / 2],
          [x + 9, y + 1]
        ],
        thin
      )
      return
    case 'energize':
      pen.path(
        [
          [x, y + side / 2],
          [x + side, y + side / 2]
        ],
        { stroke: ink, weight: 2.5 }
      )
      return
    case 'relieve':
      pen.path(
        [
          [x + 1, y + 2],
          [x + side - 1, y + 2],
          [x + side / 2, y + side - 1]
        ],
        { fill: ink, closed: true }
      )
      return
    case 'restrain':
      pen.rectangle(x + 1, y + 1, 3, side - 2, { fill: ink })
      pen.rectangle(x + side - 4, y + 1, 3, side - 2, { fill: ink })
      return
    case 'remove':
      pen.rectangle(x + 1.5, y + 1.5, 2.5, side - 3, thin)
      pen.rectangle(x + side - 4, y + 1.5, 2.5, side - 3, thin)
      return
    case 'prove':
      pen.path(
        [
          [x, y + side - 1.5],
          [x + side, y + side - 1.5]
        ],
        thin
      )
      pen.disc(x + side / 2, y + 4, 3, { fill: ink })
      return
    case 'tryout':
      pen.path(
        [
          [x + 1, y + 1],
          [x + 7, y + side / 2],
          [x + 1, y + side - 1]
        ],
        { ...thin, closed: true }
      )
      pen.rectangle(x + 8.5, y + 1, 2, side - 2, { fill: ink })
      return
    case 'inspect':
      pen.path(
        [
          [x, y + side / 2],
          [x + side / 2, y + 1],
          [x + side, y + side / 2],
          [x + side / 2, y + side - 1]
        ],
        { ...thin, closed: true }
      )
      return
    case 'clear':
      pen.disc(x + side / 2, y + side / 2, side / 2 - 1, { ...thin, dash: 1.8 })
      return
    case 'signoff':
      pen.path(
        [
          [x, y + side - 1.5],
          [x + side, y + side - 1.5]
        ],
        thin
      )
      pen.path(
        [
          [x + 1, y + 6],
          [x + 3.5, y + 2],
          [x + 5.5, y + 6.5],
          [x + 8, y + 2],
          [x + 10, y + 6]
        ],
        thin
      )
      return
    case 'gather':
    case 'notify':
    case 'operate':
    case 'look':
    case 'live':
    case 'shutdown':
    case 'identify':
    case 'lamp':
    case 'work':
    case 'measure':
    case 'wait':
    case 'stop':
    case 'finish':
    case 'ask':
    case 'notice':
    case 'branch':
    case 'timer':
    case 'back':
      return
  }
}

/** One line that becomes two: a way has to be chosen. */
export function drawFork(pen: Pen, x: number, y: number): void {
  const look = { stroke: '#000000', weight: 1.4 }
  for (const end of [y + 1, y + 10])
    pen.path(
      [
        [x, y + 5.5],
        [x + 4, y + 5.5],
        [x + 9, end]
      ],
      look
    )
}
