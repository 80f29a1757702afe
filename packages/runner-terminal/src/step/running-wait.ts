import { formatDuration } from '@lockwright/energy'
import type { Asked } from './asked.js'

/** That a wait runs, for how long and on what grounds. */
export function running({ input }: Extract<Asked, { readonly kind: 'waiting' }>): string {
  return `The wait runs: ${formatDuration(input.seconds)}, ${because(input.because)}.`
}

/** On what grounds a wait is as long as it is. */
export function because(grounds: 'written' | 'label' | 'computed'): string {
  switch (grounds) {
    case 'written':
      return 'as the procedure says'
    case 'label':
      return "as the equipment's label says"
    case 'computed':
      return 'computed from the worst case'
  }
}
