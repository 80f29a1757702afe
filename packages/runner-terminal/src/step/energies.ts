import { type Machine, type Snapshot, type SourceStatus, statuses } from '@lockwright/machine'
import { visible } from '../text/visible.js'

/** How a source stands, by word and by a shape of its own; colour may be added but never carries it. */
export interface Energy {
  readonly source: string
  readonly word: 'on' | 'off' | 'locked' | 'holds energy' | 'held' | 'released' | 'proven'
  /** Three characters, different for each word. */
  readonly shape: string
  /** What the word alone does not say; empty where it says all. */
  readonly more: string
}

const shapes: Readonly<Record<Energy['word'], string>> = {
  on: '[!]',
  off: '[/]',
  locked: '[#]',
  'holds energy': '[~]',
  held: '[|]',
  released: '[-]',
  proven: '[=]'
}

/** Every source on this generation, in the order of the procedure. */
export function energiesOf(machine: Machine, { ledger }: Snapshot): readonly Energy[] {
  return statuses(machine, ledger)
    .filter(({ present }) => present)
    .map((status) => {
      const word = wordOf(machine, ledger.points, status)
      return { source: visible(status.source), word, shape: shapes[word], more: moreOf(machine, ledger, status, word) }
    })
}

function wordOf(machine: Machine, points: Snapshot['ledger']['points'], status: SourceStatus): Energy['word'] {
  if (status.proven) return 'proven'
  if (status.isolated) {
    if (status.store === 'gone') return 'released'
    if (status.restrained) return 'held'
    return status.store === 'held' ? 'holds energy' : 'locked'
  }
  const source = machine.sources.find(({ id }) => id === status.source)
  const off = source !== undefined && source.at.length > 0 && source.at.every((point) => points[point] !== 'on')
  return off ? 'off' : 'on'
}

function moreOf(machine: Machine, ledger: Snapshot['ledger'], status: SourceStatus, word: Energy['word']): string {
  const on = machine.restraints.filter(
    ({ id, holds }) => holds.includes(status.source) && ledger.restraints[id] === 'on'
  )
  const leftOn = machine.leftOn.some(({ source }) => source === status.source)
  return [
    word === 'holds energy' ? 'locked' : '',
    word === 'off' ? 'not locked' : '',
    leftOn ? 'left on' : '',
    status.still && !status.dead ? 'can come back' : '',
    on.map(({ id }) => `${id} on`).join(', ')
  ]
    .filter((part) => part !== '')
    .map(visible)
    .join(', ')
}
