import type { PointId } from '@lockwright/language'
import type { CrewLock, HungLock, LockId } from '@lockwright/machine'
import type { Asked } from './asked.js'
import { type Interpreted, refuse, type Sitting } from './interpreted.js'

/**
 * `17`, or with the point before it: `Q1 17`. `again`: the number without a digit that was typed before; typed once
 * more it counts.
 */
export function interpretLock(
  line: string,
  { machine, snapshot, desk, person }: Sitting,
  { point }: Extract<Asked, { readonly kind: 'lock' }>,
  again: string | null = null
): Interpreted {
  const read = readLock(line, { machine, snapshot }, point)
  if (!read.ok) return refuse(read.why, read.mend)
  const { lock } = read
  if (!/\p{N}/u.test(lock) && again !== line) {
    return { kind: 'desk', desk: { ...desk, question: { kind: 'odd-lock', typed: line } } }
  }
  return {
    kind: 'event',
    event: { kind: 'lock-hung', state: snapshot.state, point, lock, by: person },
    last: null,
    signer: null
  }
}

/** The number on a lock for a point, by itself or behind the point. `more`: locks that hang and are in no record yet. */
export function readLock(
  line: string,
  { machine, snapshot }: Pick<Sitting, 'machine' | 'snapshot'>,
  point: PointId,
  more: readonly (HungLock & Partial<CrewLock>)[] = []
): { readonly ok: true; readonly lock: LockId } | { readonly ok: false; readonly why: string; readonly mend: string } {
  const words = line.split(' ')
  const [first = '', ...rest] = words
  const named = machine.points.find(({ id }) => id === first)
  if (named !== undefined && rest.length > 0 && named.id !== point) {
    return {
      ok: false,
      why: `The lock for \`${point}\` is asked for now, not the one for \`${first}\`.`,
      mend: `Type the number on the lock that hangs on \`${point}\`.`
    }
  }
  const lock = (named === undefined ? words : rest).join(' ')
  if (lock === '' || lock.length > longestLock || !/[\p{L}\p{N}]/u.test(lock)) {
    const mend = `Type the number on the lock that hangs on \`${point}\`.`
    return { ok: false, why: `\`${line}\` is not the number of a lock.`, mend }
  }
  const elsewhere = [...snapshot.locks, ...more].find((hung) => hung.lock === lock)
  if (elsewhere === undefined) return { ok: true, lock: lock as LockId }
  const whose = elsewhere.person === undefined ? '' : ` (${elsewhere.person})`
  return {
    ok: false,
    why: `Lock ${lock} already hangs on \`${elsewhere.point}\`${whose}.`,
    mend: `Each point has a lock of its own: type the number on the one that hangs on \`${point}\`.`
  }
}

const longestLock = 40

/** The number on the lock; who hung it takes it off. */
export function interpretUnlock(
  line: string,
  { snapshot, person }: Sitting,
  { point, lock }: Extract<Asked, { readonly kind: 'unlock' }>
): Interpreted {
  const given = line.startsWith(`${point} `) ? line.slice(point.length + 1) : line
  if (given !== lock.lock) {
    return refuse(
      `\`${line}\` is not the lock that ${lock.person} hung on \`${point}\`.`,
      person === lock.person
        ? `By the record it is lock ${lock.lock}: once ${lock.person} has taken it off, type that number. Where another ` +
            'number stands on the lock, put that into the record first, with `note`.'
        : `Once ${lock.person} has taken it off, type the number that stands on it; the locks on record are listed as ` +
            'LOCKS. Where another number stands on it, put that into the record first, with `note`.'
    )
  }
  return {
    kind: 'event',
    event: { kind: 'lock-removed', state: snapshot.state, point, owner: lock.person, by: lock.person },
    last: null,
    signer: null
  }
}
