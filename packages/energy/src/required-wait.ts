import type { Quantity } from './quantity.js'
import type { RelieveTime } from './relieve-time.js'

export interface WaitGrounds {
  /** `wait=` of the step. */
  readonly written?: Quantity | undefined
  /** What the equipment's label says. */
  readonly label?: Quantity | undefined
  /** The worst-case decay, from `relieveTime`. */
  readonly computed?: RelieveTime | undefined
}

export interface RequiredWait {
  readonly seconds: number
  /** What the wait rests on; of equal grounds the first in this order. */
  readonly because: 'written' | 'label' | 'computed' | 'none'
  /** True where somebody wrote a wait that is shorter than the label or the decay asks for. */
  readonly writtenTooShort: boolean
  /** The seconds that each ground asks for, where it is known. */
  readonly grounds: {
    readonly written?: number
    readonly label?: number
    readonly computed?: number
  }
}

/** The largest of what is written, what the label says and what physics asks for; none is ever averaged or dropped. */
export function requiredWait({ written, label, computed }: WaitGrounds): RequiredWait {
  const grounds = {
    ...(written?.dimension === 'time' ? { written: written.interval.low } : {}),
    ...(label?.dimension === 'time' ? { label: label.interval.high } : {}),
    ...(computed?.kind === 'computed' ? { computed: computed.seconds } : {})
  }
  let largest: Pick<RequiredWait, 'seconds' | 'because'> = { seconds: 0, because: 'none' }
  for (const because of ['written', 'label', 'computed'] as const) {
    const seconds = grounds[because]
    if (seconds !== undefined && (largest.because === 'none' || seconds > largest.seconds))
      largest = { seconds, because }
  }
  return { ...largest, writtenTooShort: (grounds.written ?? largest.seconds) < largest.seconds, grounds }
}
