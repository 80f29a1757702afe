import type { PersonId, Snapshot } from '@lockwright/machine'
import { type LockElsewhere, tellElsewhere } from '../elsewhere/lock-elsewhere.js'
import { clearedBy, clears } from '../elsewhere/locks-elsewhere.js'
import type { RunId } from '../entry.js'
import { lockSpans } from '../shift.js'
import { gravest } from './audit-run.js'
import type { Evidence } from './evidence.js'
import type { KeptLock } from './kept.js'
import type { RunAudit } from './report.js'
import { type Found, verdictOn } from './verdict.js'

/** What one run says of locks and of switching on, for the audit of the others. */
export interface LockStory {
  readonly run: string
  readonly equipment: string
  readonly hung: readonly HungThen[]
  /** Locks of other runs that it took over or off. */
  readonly cleared: ReturnType<typeof clearedBy>
  /** Points that it switched on. */
  readonly on: readonly { readonly point: string; readonly seq: number; readonly at: string }[]
}

/** `until`: RFC 3339; null: it hung on when the run was closed, or hangs still. */
type HungThen = LockElsewhere & { readonly until: string | null }

/** None of a rehearsal, or where nothing can be read. Only a sound issued run clears a lock that another left. */
export function lockStoryOf(run: RunAudit, evidence: Evidence): readonly LockStory[] {
  const { summary, replay } = evidence
  if (summary === null || summary.mode === 'rehearsal') return []
  const entries = replay === null ? evidence.entries : evidence.entries.slice(0, replay.snapshots.length - 1)
  const isSound = run.verdicts[0].answer !== 'findings' && run.verdicts[1].answer !== 'findings'
  const { equipment, status, lastAt } = summary
  const closedAt = status === 'stopped' || status === 'finished' ? lastAt : null
  const hung = lockSpans(entries).map(({ point, lock, person, since, until }): HungThen => {
    return { point, lock, person, since, until, run: summary.run, status, closedAt }
  })
  const snapshots = replay?.snapshots ?? []
  const on = snapshots.slice(1).flatMap((after, index) => {
    const [before, entry] = [snapshots[index], entries[index]]
    if (before === undefined || entry === undefined || entry.event.kind === 'opened') return []
    return switchedOn(before, after).map((point) => ({ point, seq: entry.seq, at: entry.at }))
  })
  const clears = summary.mode === 'issued' && isSound
  return [{ run: run.run, equipment, hung, cleared: clears ? clearedBy(entries) : [], on }]
}

function switchedOn({ ledger: before }: Snapshot, { ledger: after }: Snapshot): readonly string[] {
  const was: Readonly<Record<string, string>> = before.points
  return Object.entries(after.points).flatMap(([point, is]) => (is === 'on' && was[point] !== 'on' ? [point] : []))
}

/** What runs that were not read again left on, as it was kept or as the log tells it. */
export function coveredStories(locks: readonly KeptLock[]): readonly LockStory[] {
  return locks.map(({ run, equipment, status, closedAt, point, lock, by, since }) => ({
    run,
    equipment,
    hung: [
      {
        point,
        lock,
        person: by as PersonId,
        since: since ?? closedAt,
        until: null,
        run: run as RunId,
        status: status === 'finished' ? 'finished' : 'stopped',
        closedAt
      }
    ],
    cleared: [],
    on: []
  }))
}

/**
 * What switched something on while, by the record of another run, a lock hung there: the findings of each run. Every
 * point is walked through once in the order of time, so that a store of many runs of one machine costs what its runs cost.
 */
export function overLocksIn(stories: readonly LockStory[]): ReadonlyMap<string, readonly Found[]> {
  const found = new Map<string, Found[]>()
  for (const group of grouped(stories, ({ equipment }) => equipment)) {
    const hung = new Map(byPoint(group.flatMap((story) => story.hung)).map((locks) => [locks[0]?.point, locks]))
    const cleared = group.flatMap(({ run, cleared }) => cleared.map((by) => ({ by, run })))
    for (const switched of byPoint(group.flatMap(({ run, on }) => on.map((one) => ({ ...one, run }))))) {
      const locks = (hung.get(switched[0]?.point ?? '') ?? []).toSorted((a, b) => time(a.since) - time(b.since))
      let next = 0
      let hanging: readonly HungThen[] = []
      for (const { run, seq, at } of switched.toSorted((a, b) => time(a.at) - time(b.at))) {
        const begun = next
        while (next < locks.length && time(locks[next]?.since ?? '') <= time(at)) next += 1
        hanging = [...hanging, ...locks.slice(begun, next)].filter(
          ({ until }) => until === null || time(until) > time(at)
        )
        for (const one of hanging) {
          const isCleared = (): boolean =>
            cleared.some((each) => each.run !== one.run && time(each.by.at) <= time(at) && clears(each.by, one))
          if (one.run !== run && !isCleared()) found.set(run, [...(found.get(run) ?? []), overLock(seq, one)])
        }
      }
    }
  }
  return found
}

function grouped<Thing>(things: readonly Thing[], keyOf: (thing: Thing) => string): readonly (readonly Thing[])[] {
  const groups = new Map<string, Thing[]>()
  for (const thing of things) {
    const group = groups.get(keyOf(thing))
    if (group === undefined) groups.set(keyOf(thing), [thing])
    else group.push(thing)
  }
  return [...groups.values()]
}

const byPoint = <Thing extends { readonly point: string }>(things: readonly Thing[]) =>
  grouped(things, ({ point }) => point)

const time = (at: string): number => Date.parse(at)

/** The audit of a run, with what it switched on over locks of others. */
export function withOverLock(run: RunAudit, found: readonly Found[]): RunAudit {
  if (found.length === 0) return run
  const [whole, followed, ...more] = run.verdicts
  const told = verdictOn('followed', found, [], (seq) => (seq === null ? run.file : `${run.file}:${seq}`), run.file)
  const verdict = {
    ...followed,
    answer: gravest([followed.answer, told.answer]),
    findings: [...followed.findings, ...told.findings]
  }
  const verdicts = [whole, verdict, ...more] as const
  return { ...run, verdicts, answer: gravest(verdicts.map(({ answer }) => answer)) }
}

function overLock(seq: number, one: HungThen): Found {
  return {
    id: 'energized-over-lock',
    weight: 'fault',
    seq,
    what: `${one.point} was switched on, and by the records another lock hung there then: ${tellElsewhere(one)}.`,
    danger: 'Its owner may have had their hands in the machine, relying on that lock.',
    mend: `Ask \`${one.person}\` and whoever switched it on: was the lock cut, or was it taken off without a word in the record?`
  }
}
