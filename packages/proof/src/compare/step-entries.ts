import { formatDuration } from '@lockwright/energy'
import type { Machine, State } from '@lockwright/machine'
import { thingsOf } from '../arrangement.js'
import { idSet } from './declared-entries.js'
import type { Entry } from './entry.js'
import { amountFacet, type Facet, flagFacet, setFacet } from './facet.js'
import type { Reading } from './shared-names.js'
import {
  boxFacet,
  crewFacets,
  expectFacet,
  limitFacets,
  nearFacets,
  permissionFacets,
  proofFacets,
  toolFacets,
  waitFacet
} from './step-facets.js'
import { messageRank, messageWords, stepWords } from './step-kinds.js'

/** What one step does to one thing; without things, the step itself. Copies of a step are one. */
export interface StepUnit {
  readonly state: State
  readonly thing: string | null
  /** The steps as written before and after it; null at either end. */
  readonly before: State | null
  readonly after: State | null
}

export type StepEntry = Entry & { readonly unit: StepUnit }

/** Every step as written, thing by thing: locking two devices in one step or in two is the same. */
export function stepEntries(reading: Reading): readonly StepEntry[] {
  return unitsOf(reading.machine).flatMap((unit) => {
    const words = stepWords[unit.state.kind]
    return words === null ? [] : [stepEntry(unit, words, reading)]
  })
}

function unitsOf(machine: Machine): readonly StepUnit[] {
  const written = writtenSteps(machine)
  return written.flatMap((state, index): readonly StepUnit[] => {
    const place = { before: written[index - 1] ?? null, after: written[index + 1] ?? null }
    const things = actsOn(state)
    return things.length === 0
      ? [{ state, thing: null, ...place }]
      : things.map((thing) => ({ state, thing, ...place }))
  })
}

/** Every step once, however often it is copied. */
function writtenSteps({ states }: Machine): readonly State[] {
  const seen = new Set<string>()
  return states.filter(({ kind, step, span }) => {
    const key = `${kind} ${step} ${span.line}:${span.column}`
    if (seen.has(key)) return false
    seen.add(key)
    return true
  })
}

/** What the step does something to; what is read, and what a piece of work leaves on, is compared as such. */
export function actsOn(state: State): readonly string[] {
  switch (state.kind) {
    case 'measure':
    case 'work':
    case 'branch':
      return []
    default:
      return thingsOf(state)
  }
}

function stepEntry(
  unit: StepUnit,
  { name, more, why }: NonNullable<(typeof stepWords)[State['kind']]>,
  reading: Reading
): StepEntry {
  const { state, thing } = unit
  const shared = thing === null ? '' : reading.name(thing)
  const section = state.section ?? ''
  const role = state.role === null ? '' : reading.name(state.role)
  // The ids that the compiler makes hold a dot; those tell nothing of the other revision.
  const named = state.step.includes('.') ? null : `${state.kind} ${state.step} ${shared}`
  const same = `${state.kind} ${shared}`
  const words = JSON.stringify([state.title, state.body])
  const before = `after ${doneBy(unit.before, reading)}`
  const after = `before ${doneBy(unit.after, reading)}`
  return {
    topic: 'step',
    // By its own id, by its place and words together, by its words, by its place alone, and at last by what it does.
    keys: [
      named,
      `${same} ${words} ${before} ${after}`,
      state.body.length === 0 ? null : `${same} ${words}`,
      `${same} ${before} ${after}`,
      `${same} ${before}`,
      `${same} ${after}`,
      `${same} ${section} ${role}`,
      `${same} ${role}`,
      same
    ],
    name: thing === null ? name : `${name} \`${thing}\``,
    span: state.span,
    more,
    why,
    facets: new Map<string, Facet>([...crewFacets(state, reading), ...kindFacets(unit, reading)]),
    unit
  }
}

/** A neighbour, by what it does. */
function doneBy(state: State | null, { name }: Reading): string {
  return state === null ? 'nothing' : `${state.kind} ${actsOn(state).map(name).sort().join(' ')}`
}

function kindFacets({ state, thing }: StepUnit, reading: Reading): readonly (readonly [string, Facet])[] {
  const inputs = state.inputs.filter((input) => !('source' in input) || input.source === null || input.source === thing)
  switch (state.kind) {
    case 'relieve':
      return [...toolFacets(state.with, reading), ...waitFacet(inputs)]
    case 'wait':
      return waitFacet(inputs)
    case 'prove':
      return [...toolFacets(state.with, reading), ...proofFacets(state, inputs)]
    case 'lamp':
      return expectFacet(state.expect)
    case 'live':
      return [...nearFacets(state.apart, reading), ...permissionFacets(state.why, state.permits, reading)]
    case 'work':
      return [
        [
          'leaves',
          setFacet('sources that stay on', idSet(state.leaves, reading), 'looser', {
            more: 'Hands-on work goes on with one more source on.',
            less: 'Hands-on work goes on with one source less on.'
          })
        ],
        ...toolFacets(state.with, reading),
        ...permissionFacets(state.why, state.permits, reading)
      ]
    case 'measure':
      return [
        [
          'near',
          setFacet('sources that it is taken by hand near', idSet(state.near, reading), 'looser', {
            more: 'Hands go near one more source.',
            less: 'Hands keep away from a source that they went near before.'
          })
        ],
        ...nearFacets(state.apart, reading),
        ...permissionFacets(state.why, state.permits, reading),
        ...toolFacets(state.with, reading),
        ...inputs.flatMap((input) => (input.kind === 'reading' ? limitFacets(input.limits, input.unit) : [])),
        [
          'outside',
          flagFacet(
            'said what to do out of limits',
            state.exits.some(({ on }) => on === 'outside'),
            'neither',
            {
              more: 'What it leads to is compared way by way.',
              less: 'What it leads to is compared way by way.'
            }
          )
        ]
      ]
    case 'ask':
      return [
        [
          'answers',
          amountFacet('answers', state.exits.length, String(state.exits.length), 'neither', {
            more: 'What the answers lead to is compared way by way.',
            less: 'What the answers lead to is compared way by way.'
          })
        ]
      ]
    case 'timer':
      return [
        [
          'time',
          amountFacet('time', state.seconds, formatDuration(state.seconds), 'looser', {
            more: 'The steps may take longer.',
            less: 'The steps have to be done sooner.'
          })
        ]
      ]
    case 'tryout':
    case 'inspect':
    case 'clear':
    case 'shutdown':
      return boxFacet(inputs)
    default:
      return []
  }
}

/** Every safety message that has to be acknowledged. */
export function messageEntries({ machine }: Reading): readonly Entry[] {
  return writtenSteps(machine).flatMap((state) =>
    state.notices.map(({ word, label, body }): Entry => {
      const { name, more, why } = messageWords
      return {
        topic: 'step',
        keys: [JSON.stringify([label, body]), label === '' ? null : label, word, 'any'],
        name: `${name} ${word}`,
        span: state.span,
        more,
        why,
        facets: new Map([
          [
            'word',
            amountFacet('its word', messageRank[word], word, 'stricter', {
              more: 'It is told as a greater danger.',
              less: 'It is told as a lesser danger.'
            })
          ]
        ])
      }
    })
  )
}
