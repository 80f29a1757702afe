import type { BareEvent } from '@lockwright/records'

/** A step that was left starts with nothing ticked, also where the same one comes round again. */
export function leavesStep({ kind }: BareEvent): boolean {
  return kind === 'done' || kind === 'choice' || kind === 'signed' || kind === 'late' || kind === 'deviation'
}
