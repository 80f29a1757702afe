import type { Input, Machine, Snapshot } from '@lockwright/machine'
import type { Recorded } from '../run-port.js'
import { visible } from '../text/visible.js'
import { tellLimits } from './limits.js'
import type { ShownNotice } from './screen.js'

type ReadingInput = Extract<Input, { readonly kind: 'reading' }>

/** A reading at or above the limit, taken where a source is to be proven dead. */
export interface LiveReading {
  readonly input: ReadingInput
  /** As it was entered. */
  readonly typed: string
}

/** The last reading of this input, where it says that the source is not dead; null where it does not, and for a measure. */
export function liveReadingOf({ progress }: Snapshot, input: ReadingInput): LiveReading | null {
  const last = progress.readings[input.id]
  return input.source === null || last === undefined || last.inside ? null : { input, typed: last.typed }
}

/** `LIVE: step back. mains: L to N read 400 V (it has to be below 50 V)`; what is not electrical is told as not released. */
export function tellLive(machine: Machine, { input, typed }: LiveReading): string {
  return visible(
    `${stateWord(machine, input)}: step back. ${input.label} read ${typed} (it has to be ${tellLimits(input)})`
  )
}

/** What has to be done at once, in the shape of a danger notice. */
export function liveNotice(machine: Machine, live: LiveReading): ShownNotice {
  const electrical = stateWord(machine, live.input) === 'LIVE'
  return {
    word: 'DANGER',
    label: tellLive(machine, live),
    body: [`Treat it as ${electrical ? 'live' : 'holding energy'}.`, 'Find out why before it is measured again.']
  }
}

/** The note that gives the reason; it stands behind the reading in the record. */
export function reasonNote(live: LiveReading, reason: string): string {
  return `${reasonLead(live.input)}${live.typed}: ${reason}`
}

/** A reading taken on proving again is in no event where it was not taken: it is kept as a note. */
export function provingAgainNote({ input, typed }: LiveReading): string {
  return `${provingAgainLead(input)}${typed}; out of limits`
}

/** Whether the last reading of this input was out of limits and nobody has said why since. */
export function reasonIsOwed(snapshot: Snapshot, entries: readonly Recorded[], input: ReadingInput): boolean {
  const at =
    snapshot.recheck.length > 0
      ? entries.findLastIndex(({ event }) => event.kind === 'note' && event.text.startsWith(provingAgainLead(input)))
      : liveReadingOf(snapshot, input) === null
        ? -1
        : entries.findLastIndex(
            ({ event, state }) => event.kind === 'reading' && event.input === input.id && state === snapshot.state
          )
  if (at < 0) return false
  return !entries.slice(at).some(({ event }) => event.kind === 'note' && event.text.startsWith(reasonLead(input)))
}

function reasonLead({ label }: ReadingInput): string {
  return `Why ${label} read `
}

function provingAgainLead({ label }: ReadingInput): string {
  return `On proving again, ${label} read `
}

function stateWord(machine: Machine, { source }: ReadingInput): 'LIVE' | 'NOT RELEASED' {
  const kind = machine.sources.find(({ id }) => id === source)?.kind
  return kind === 'electrical' || kind === 'capacitor' || kind === 'battery' ? 'LIVE' : 'NOT RELEASED'
}
