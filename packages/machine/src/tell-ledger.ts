import { statuses } from './ledger.js'
import type { Machine } from './machine.js'
import type { Ledger, SourceStatus } from './snapshot.js'

/** Where one source stands, from the most dangerous to the least. */
export type Standing = 'on' | 'holds energy' | 'can come back' | 'not proven' | 'proven dead'

/** The most dangerous thing that is still true of a source. */
export function standingOf(status: SourceStatus): Standing {
  if (!status.isolated) return 'on'
  if (!status.still) return 'holds energy'
  if (!status.dead) return 'can come back'
  return status.proven ? 'proven dead' : 'not proven'
}

const standings: readonly Standing[] = ['on', 'holds energy', 'can come back', 'not proven', 'proven dead']

/** The ledger in one line of plain words, the dangerous first. */
export function tellLedger(machine: Machine, ledger: Ledger): string {
  const present = statuses(machine, ledger).filter((status) => status.present)
  const sources = standings.flatMap((standing) => {
    const names = present.filter((status) => standingOf(status) === standing).map(({ source }) => source)
    return names.length === 0 ? [] : [`${standing}: ${names.join(', ')}`]
  })
  const locked = machine.points.map(({ id }) => id).filter((id) => ledger.points[id] === 'locked')
  const restrained = machine.restraints.map(({ id }) => id).filter((id) => ledger.restraints[id] === 'on')
  const flags = [
    ledger.told ? 'people told' : 'people not told',
    ledger.stopped ? 'stopped' : 'not stopped',
    ledger.tried ? 'start tried' : 'start not tried',
    ledger.inspected ? 'closed up' : 'opened up',
    ledger.clear ? 'people clear' : 'people not clear'
  ]
  return [
    ...sources,
    ...(locked.length === 0 ? ['no locks'] : [`locks: ${locked.join(', ')}`]),
    ...(restrained.length === 0 ? [] : [`restraints: ${restrained.join(', ')}`]),
    flags.join(', ')
  ].join('; ')
}
