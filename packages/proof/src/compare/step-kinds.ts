import type { StateKind } from '@lockwright/machine'
import type { Facet, More } from './facet.js'

/** What a step of a kind is called, and what one more or one less of it means. */
export interface StepWords {
  readonly name: string
  readonly more: More
  readonly why: Facet['why']
}

const gate = (name: string, more: string, less: string): StepWords => ({ name, more: 'stricter', why: { more, less } })
const undoing = (name: string, more: string, less: string): StepWords => ({ name, more: 'looser', why: { more, less } })
const other = (name: string, why: string): StepWords => ({ name, more: 'neither', why: { more: why, less: why } })

const byWay = 'What it leads to is compared way by way.'
const hands = 'What has to be passed before hands-on work is compared way by way.'

/** Kinds that are compared as steps; gathering is compared item by item, a branch or `back` by the ways it makes. */
export const stepWords: Readonly<Record<StateKind, StepWords | null>> = {
  gather: null,
  notify: gate('Telling people', 'People are told once more.', 'People are not told where they were before.'),
  operate: other(
    'Running the machine by its own controls',
    'The machine moves with people clear and everything closed.'
  ),
  look: other('A look', 'Looking is hands off.'),
  live: undoing(
    'A test with power on at',
    'Someone works near this energy with power on.',
    'It is not worked near with power on there any more.'
  ),
  shutdown: gate(
    'Shutting down',
    'The machine is stopped once more.',
    'The machine is not stopped where it was before.'
  ),
  identify: gate('Identifying', 'The generation is found out.', 'The generation is not found out there any more.'),
  isolate: gate(
    'Switching off',
    'The device is put in its safe position.',
    'The device is not put in its safe position there any more.'
  ),
  lock: gate('Locking', 'One more lock is hung.', 'A lock is not hung where it was before.'),
  relieve: gate(
    'Letting out',
    'Stored energy is let out once more.',
    'Stored energy is not let out where it was before.'
  ),
  restrain: gate(
    'Putting on',
    'Energy is held back by one more device.',
    'Energy is not held back where it was before.'
  ),
  lamp: other('A look at the indicator of', 'An indicator proves nothing by itself.'),
  prove: gate('Proving dead', 'Energy is proven dead once more.', 'Energy is not proven dead where it was before.'),
  tryout: gate(
    'Trying the start control',
    'The start control is tried once more.',
    'The start control is not tried where it was before.'
  ),
  signoff: gate('Sign-off', 'One more signature is asked for.', 'A signature is not asked for any more.'),
  work: other('Hands-on work', hands),
  measure: gate('Measuring', 'A reading is taken once more.', 'A reading is not taken any more.'),
  wait: gate('Waiting', 'A wait is asked for.', 'A wait is not asked for any more.'),
  inspect: gate(
    'Inspecting',
    'The machine is inspected once more.',
    'The machine is not inspected where it was before.'
  ),
  clear: gate('Clearing people', 'People are cleared once more.', 'People are not cleared where they were before.'),
  remove: undoing(
    'Taking off',
    'A device that holds energy back comes off.',
    'A device that holds energy back stays on there.'
  ),
  unlock: undoing('Unlocking', 'A lock comes off.', 'A lock stays on there.'),
  energize: undoing('Switching on', 'Energy comes back.', 'Energy does not come back there.'),
  stop: gate('A stop', 'The work stops where it went on.', 'The work goes on where it stopped.'),
  finish: other('Return to service', byWay),
  ask: other('A question', byWay),
  notice: null,
  branch: null,
  timer: gate('A time limit', 'The steps have to be done in a given time.', 'The steps may take any time.'),
  back: null
}

/** What a safety message is called. */
export const messageWords: StepWords = gate(
  'A message of the word',
  'One more danger has to be acknowledged.',
  'A danger need not be acknowledged any more.'
)

export const messageRank = { notice: 0, caution: 1, warning: 2, danger: 3 } as const
