import type { Machine } from '@lockwright/machine'

// The ledger of the naive explorer: plain objects, and everything derived is worked out anew at every question.

export interface Ledger {
  points: Record<string, 'on' | 'off' | 'locked'>
  restraints: Record<string, 'on' | 'off'>
  stores: Record<string, 'held' | 'gone'>
  proofs: Record<string, boolean>
  axes: Record<string, string>
  stopped: boolean
  told: boolean
  tried: boolean
  inspected: boolean
  clear: boolean
  touched: string[]
  permits: string[]
}

export type Source = Machine['sources'][number]
type Restraint = Machine['restraints'][number]

export function firstLedger(machine: Machine): Ledger {
  return {
    points: Object.fromEntries(machine.points.map((point) => [point.id, point.normal])),
    restraints: Object.fromEntries(machine.restraints.map((restraint) => [restraint.id, 'off'])),
    stores: Object.fromEntries(
      machine.sources.filter((source) => source.store !== 'none').map((source) => [source.id, 'held'])
    ),
    proofs: Object.fromEntries(machine.sources.map((source) => [source.id, false])),
    axes: {},
    stopped: false,
    told: false,
    tried: machine.noStartControl !== null,
    inspected: true,
    clear: true,
    touched: [],
    permits: []
  }
}

/** One spelling for one ledger: keys and lists in order. */
export function canonical(ledger: Ledger): unknown {
  const sorted = (record: object): unknown => Object.entries(record).sort(([one], [other]) => (one < other ? -1 : 1))
  return {
    ...ledger,
    points: sorted(ledger.points),
    restraints: sorted(ledger.restraints),
    stores: sorted(ledger.stores),
    proofs: sorted(ledger.proofs),
    axes: sorted(ledger.axes),
    touched: [...new Set(ledger.touched)].sort(),
    permits: [...new Set(ledger.permits)].sort()
  }
}

/** The derived part of the ledger, worked out anew at every question. */
export class World {
  constructor(
    readonly machine: Machine,
    readonly ledger: Ledger
  ) {}

  private exists(only: Source['only']): boolean {
    return only.every(({ axis, values }) => {
      const known = this.ledger.axes[axis]
      return known === undefined || values.some((value) => value === known)
    })
  }

  source(id: string): Source {
    const source = this.machine.sources.find((candidate) => candidate.id === id)
    if (source === undefined) throw new Error(`no source ${id}`)
    return source
  }

  sourcePresent(id: string): boolean {
    return this.exists(this.source(id).only)
  }

  pointPresent(id: string): boolean {
    return this.machine.points.some((point) => point.id === id && this.exists(point.only))
  }

  restraintsPresent(ids: readonly string[]): Restraint[] {
    return this.machine.restraints.filter((restraint) => ids.includes(restraint.id) && this.exists(restraint.only))
  }

  private fedBy(id: string): string[] {
    return this.source(id).fedBy.filter((feeder) => this.sourcePresent(feeder))
  }

  /** The source and all that feeds it, over what is present. */
  feeders(id: string): string[] {
    return [id, ...this.fedBy(id).flatMap((feeder) => this.feeders(feeder))]
  }

  pointsFeeding(id: string): string[] {
    return this.feeders(id).flatMap((feeder) => this.source(feeder).at.filter((point) => this.pointPresent(point)))
  }

  private at(id: string): string[] {
    return this.source(id).at.filter((point) => this.pointPresent(point))
  }

  restrained(id: string): boolean {
    return this.machine.restraints.some(
      (restraint) =>
        this.exists(restraint.only) &&
        restraint.holds.some((held) => held === id) &&
        this.ledger.restraints[restraint.id] === 'on'
    )
  }

  private heldBack(id: string): boolean {
    return this.source(id).store === 'none' || this.ledger.stores[id] === 'gone' || this.restrained(id)
  }

  private stays(id: string): boolean {
    return !this.source(id).rebuilds || this.restrained(id)
  }

  isolated(id: string): boolean {
    return (
      this.at(id).every((point) => this.ledger.points[point] === 'locked') &&
      this.fedBy(id).every((feeder) => this.dead(feeder))
    )
  }

  still(id: string): boolean {
    return this.isolated(id) && this.heldBack(id)
  }

  dead(id: string): boolean {
    return this.still(id) && this.stays(id)
  }

  /** As isolated, with points off or locked all along the feed. */
  cut(id: string): boolean {
    return (
      this.at(id).every((point) => this.ledger.points[point] !== 'on') &&
      this.fedBy(id).every((feeder) => this.cut(feeder) && this.heldBack(feeder) && this.stays(feeder))
    )
  }

  /** Whether a restraint that would not stand power is on, on something that the point feeds. */
  restrainedBehind(point: string): boolean {
    return this.machine.restraints.some(
      (restraint) =>
        this.exists(restraint.only) &&
        restraint.needsPower === null &&
        this.ledger.restraints[restraint.id] === 'on' &&
        restraint.holds.some((held) => this.sourcePresent(held) && this.pointsFeeding(held).includes(point))
    )
  }
}

/** Settles until nothing changes any more; what is absent keeps nothing. */
export function settled(machine: Machine, ledger: Ledger): Ledger {
  const after = structuredClone(ledger)
  for (let changed = true; changed; ) {
    const before = JSON.stringify(after)
    const world = new World(machine, after)
    for (const { id, store } of machine.sources) {
      if (!world.sourcePresent(id)) {
        delete after.stores[id]
        after.proofs[id] = false
        after.touched = after.touched.filter((touched) => touched !== id)
        continue
      }
      const fed = machine.order === 'electrical' ? !world.cut(id) : !world.isolated(id)
      if (fed && store !== 'none') after.stores[id] = 'held'
      if (!world.still(id)) after.proofs[id] = false
    }
    changed = JSON.stringify(after) !== before
  }
  return after
}
