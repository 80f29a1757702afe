import type { SourceId } from '@lockwright/language'
import { type Machine, type Snapshot, type SourceStatus, stateOf, statuses } from '@lockwright/machine'
import { visible } from '../text/visible.js'
import { liveReadingOf } from './live-reading.js'

/** How a source stands, by word and by a shape of its own; colour may be added but never carries it. */
export interface Energy {
  readonly source: string
  readonly word:
    | 'not dead'
    | 'on'
    | 'off'
    | 'locked'
    | 'nothing feeds it'
    | 'holds energy'
    | 'held'
    | 'released'
    | 'proven'
  /** Three characters, different for each word. */
  readonly shape: string
  /** What the word alone does not say; empty where it says all. */
  readonly more: string
}

const shapes: Readonly<Record<Energy['word'], string>> = {
  'not dead': '!!!',
  on: '[!]',
  off: '[/]',
  locked: '[#]',
  'nothing feeds it': '[.]',
  'holds energy': '[~]',
  held: '[|]',
  released: '[-]',
  proven: '[=]'
}

/**
 * Every source on this generation, in the order of the procedure. What was just read as live is told as such: that a
 * lock hangs on what should feed it makes it no safer.
 */
export function energiesOf(machine: Machine, snapshot: Snapshot): readonly Energy[] {
  const { ledger } = snapshot
  const live = stateOf(machine, snapshot.state).inputs.flatMap((input) =>
    input.kind === 'reading' && liveReadingOf(snapshot, input) !== null ? [input.source] : []
  )
  return statuses(machine, ledger)
    .filter(({ present }) => present)
    .map((status) => {
      const word = live.includes(status.source) ? 'not dead' : wordOf(machine, ledger.points, status)
      return { source: visible(status.source), word, shape: shapes[word], more: moreOf(machine, ledger, status, word) }
    })
}

function wordOf(machine: Machine, points: Snapshot['ledger']['points'], status: SourceStatus): Energy['word'] {
  if (status.proven) return 'proven'
  if (status.isolated) {
    if (status.store === 'gone') return 'released'
    if (status.restrained) return 'held'
    if (status.store === 'held') return 'holds energy'
    return isLocked(machine, points, status.source) ? 'locked' : 'nothing feeds it'
  }
  const source = machine.sources.find(({ id }) => id === status.source)
  const off = source !== undefined && source.at.length > 0 && source.at.every((point) => points[point] !== 'on')
  return off ? 'off' : 'on'
}

/** A lock hangs on at least one point that feeds the source, be it by way of other sources. */
function isLocked(machine: Machine, points: Snapshot['ledger']['points'], source: SourceId): boolean {
  const feeds = new Set<SourceId>([source])
  // A set grows while it is walked: every feeder is met once, also where feeds go round in a ring.
  for (const id of feeds) {
    const found = machine.sources.find((candidate) => candidate.id === id)
    if (found?.at.some((point) => points[point] === 'locked')) return true
    for (const feeder of found?.fedBy ?? []) feeds.add(feeder)
  }
  return false
}

function moreOf(machine: Machine, ledger: Snapshot['ledger'], status: SourceStatus, word: Energy['word']): string {
  const on = machine.restraints.filter(
    ({ id, holds }) => holds.includes(status.source) && ledger.restraints[id] === 'on'
  )
  const leftOn = machine.leftOn.some(({ source }) => source === status.source)
  return [
    word === 'holds energy' || word === 'not dead'
      ? isLocked(machine, ledger.points, status.source)
        ? 'locked'
        : 'nothing feeds it'
      : '',
    word === 'off' ? 'not locked' : '',
    leftOn ? 'left on' : '',
    status.still && !status.dead ? 'can come back' : '',
    on.map(({ id }) => `${id} on`).join(', ')
  ]
    .filter((part) => part !== '')
    .map(visible)
    .join(', ')
}
