import type { RunId } from '../entry.js'
import type { Checkpoint } from '../log/checkpoint.js'
import { type Frontier, frontierOf } from '../log/frontier.js'
import { type Leaf, parseLeaf } from '../log/leaf.js'
import { forkedLog, type LogFinding, shorterLog, twiceInLog, unreadableLeaf } from '../log/log-findings.js'
import { openCheckpointOf } from '../log/open-checkpoint.js'
import { isShared, originsOf, sharedOrigin } from '../log/origin.js'
import { leafHash, sameHash, type TreeHash } from '../log/tree-hash.js'
import type { RecordsFault, RecordsResult } from '../result.js'
import type { Roster } from '../roster.js'
import { peaksAt } from '../store/judge-checkpoint.js'
import type { Store } from '../store/store.js'
import { StoreFailure } from '../store/store-failure.js'
import type { KeptAudit, readKept } from './kept.js'
import { count, type Found } from './verdict.js'

/** The site log as the store has it, held against the checkpoint that the auditor kept. */
export interface StoreLog {
  /** Leaves by the name of their run: all, or where `kept` was gone by, those after it. */
  readonly leaves: ReadonlyMap<string, LoggedRun>
  /** Those that tell of a lock that was left, or of a sheet; the others need not be taken apart. */
  readonly telling: readonly LoggedRun[]
  readonly size: number
  /** Leaves that the checkpoint covers, once the log was found to begin with them; null: no checkpoint holds. */
  readonly covered: number | null
  /** What stands for the leaves that were not read; null: all were. */
  readonly kept: KeptAudit | null
  /** The runs that it names. */
  readonly keptRuns: ReadonlySet<string>
  /** The latest checkpoint, the auditor's or the log's own, that the log was found to begin with; null: there is none. */
  readonly signed: { readonly size: number; readonly note: string } | null
  readonly found: readonly Found[]
  readonly checked: readonly string[]
}

export interface LoggedRun {
  readonly number: number
  readonly line: string
}

export const logFile = 'log/leaves.jsonl'
const atOnce = 10_000

/** What the auditor holds the log against. */
export interface GivenCheckpoint {
  /** A checkpoint, and what was kept beside it; null: none was given. */
  readonly read: ReturnType<typeof readKept> | null
  /** Whether to go by what was kept instead of reading the leaves that the checkpoint covers. */
  readonly goByKept: boolean
}

/**
 * Works the root of the log out anew; nothing that the log says of itself is believed. All leaves are read; with what an
 * auditor kept, only those after its checkpoint, once the hashes over those before it were found to be the ones signed.
 */
export async function readStoreLog(store: Store, roster: Roster | null, given: GivenCheckpoint): Promise<StoreLog> {
  const opened = given.read === null ? null : openKept(given.read, roster)
  const { note, kept: atHand } = given.read?.ok === true ? given.read.value : { note: '', kept: null }
  const mark = opened !== null && 'size' in opened ? opened : null
  const own = await ownCheckpoint(store, roster)
  const beginning = atHand === null || mark === null || !given.goByKept ? null : await treeAt(store, mark)
  const kept = beginning === null ? null : atHand
  const tree = beginning ?? frontierOf(0, noNode)
  const keptRuns = new Set(kept?.runs)
  const read = await readLeaves(store, tree, keptRuns, [mark?.size ?? 0, own?.size ?? 0])
  const { leaves, telling, roots } = read
  const fits = (one: Checkpoint): boolean => sameHash(roots.get(one.size) ?? nothing, one.root)
  const found = [...(opened !== null && 'found' in opened ? [opened.found] : []), ...read.found]
  const base = { leaves, telling, size: tree.size, kept, keptRuns }
  const ownHolds = own !== null && fits(own)
  if (mark === null) {
    return {
      ...base,
      covered: null,
      signed: ownHolds ? own : null,
      found,
      checked: [rootOf(tree, kept), ...(opened === null ? [noCheckpoint] : [])]
    }
  }
  const held = fits(mark)
  const ofOtherLog = own !== null && isShared(own.origin) !== isShared(mark.origin)
  if (!held) found.push(ofOtherLog ? otherLog(mark.origin, own.origin) : inconsistent(mark.size, tree.size))
  const told = held
    ? [
        `The log begins with the ${count(mark.size, 'leaf', 'leaves')} of the checkpoint that was kept, root for root${kept === null ? '' : `, by the hashes that the log keeps over them; of those leaves none was read again`}`
      ]
    : []
  const later = ownHolds && own.size >= mark.size ? own : held ? { size: mark.size, note } : null
  return {
    ...base,
    covered: held ? mark.size : null,
    signed: held ? later : null,
    found,
    checked: [rootOf(tree, kept), ...told]
  }
}

const nothing = new Uint8Array()

/** Of the log of a site folder, or of that of a shared store. */
function openOne(roster: Roster, note: string): RecordsResult<Checkpoint> {
  const [first, ...others] = originsOf(roster)
  return openCheckpointOf(roster, note, logFile, [first, ...others, ...[first, ...others].map(sharedOrigin)])
}

/** The checkpoint that was signed last over this log; null: none was, or it is not sound. */
async function ownCheckpoint(
  store: Store,
  roster: Roster | null
): Promise<(Checkpoint & { readonly note: string }) | null> {
  const note = roster === null ? null : await store.checkpoint()
  const opened = note === null || roster === null ? null : openOne(roster, note)
  return note !== null && opened?.ok === true ? { ...opened.value, note } : null
}

/**
 * The tree at the size of a checkpoint, from the hashes that the store keeps. They are those of the leaves that were
 * signed if their root is the one that was signed: no others that make it can be found. Null: they do not make it.
 */
async function treeAt(store: Store, { size, root }: Checkpoint): Promise<Frontier | null> {
  try {
    if (size > (await store.leafCount())) return null
    const tree = frontierOf(size, await peaksAt(store, size))
    return sameHash(tree.root(), root) ? tree : null
  } catch (error) {
    // Hashes that are gone can be made anew from the leaves, which are read then.
    if (error instanceof StoreFailure) return null
    throw error
  }
}

interface ReadLeaves {
  readonly leaves: ReadonlyMap<string, LoggedRun>
  readonly telling: readonly LoggedRun[]
  /** Roots of the tree at the sizes that were asked for, as far as it came by them. */
  readonly roots: ReadonlyMap<number, TreeHash>
  readonly found: readonly Found[]
}

/** Reads the leaves from where the tree ends and makes it grow over them. `before`: runs that have a leaf in it already. */
async function readLeaves(
  store: Store,
  tree: Frontier,
  before: ReadonlySet<string>,
  sizes: readonly number[]
): Promise<ReadLeaves> {
  const leaves = new Map<string, LoggedRun>()
  const telling: LoggedRun[] = []
  const found: Found[] = []
  const roots = new Map<number, TreeHash>()
  const note = (): void => {
    if (sizes.includes(tree.size)) roots.set(tree.size, tree.root())
  }
  note()
  for (;;) {
    const lines = await store.leaves(tree.size, atOnce)
    for (const line of lines) {
      const number = tree.size
      tree.push(leafHash(line))
      note()
      const run = runOf(line)
      if (run === null)
        found.push(asFound(unreadableLeaf(logFile, number, 'it does not have the form of one'), number + 1, logFile))
      else if (leaves.has(run) || before.has(run))
        found.push(asFound(twiceInLog(logFile, number, run as RunId), number + 1, logFile))
      else {
        const logged = { number, line }
        leaves.set(run, logged)
        if (!line.includes('"locks":[]') || line.includes('"sheet":"')) telling.push(logged)
      }
    }
    if (lines.length < atOnce) return { leaves, telling, roots, found }
  }
}

const noCheckpoint =
  'No checkpoint that was kept elsewhere was given, so that nothing was taken out of the log since cannot be told'

function rootOf(tree: Frontier, kept: KeptAudit | null): string {
  const from = kept === null ? 'the leaves' : 'the kept checkpoint and the leaves after it'
  return `Site log of ${count(tree.size, 'leaf', 'leaves')}, root ${Buffer.from(tree.root()).toString('base64')} (RFC 9162), worked out from ${from}`
}

function noNode(): never {
  throw new RangeError('an empty tree has no node')
}

/** The leaf is canonical: where the name of the run stands is known without reading it as JSON. */
function runOf(line: string): string | null {
  return /"run":"([a-z0-9][a-z0-9-]{0,79})","(?:sheet|status)":/.exec(line)?.[1] ?? null
}

/** The leaf, taken apart; null: it is none. */
export function leafIn({ line }: LoggedRun): Leaf | null {
  const parsed = parseLeaf(line)
  return 'leaf' in parsed ? parsed.leaf : null
}

function openKept(given: ReturnType<typeof readKept>, roster: Roster | null): Checkpoint | { readonly found: Found } {
  if (!given.ok) return { found: faultAsFound(given.faults[0]) }
  if (roster === null) {
    const what =
      'The checkpoint that was given could not be held against the log: there is no sound roster, so the key of the site is not known.'
    return {
      found: {
        id: 'checkpoint-unsound',
        weight: 'fault',
        seq: null,
        file: logFile,
        what,
        danger: notTold,
        mend: 'Put the roster back.'
      }
    }
  }
  const opened = openOne(roster, given.value.note)
  return opened.ok ? opened.value : { found: faultAsFound(opened.faults[0]) }
}

function faultAsFound({ id, what, danger, mend }: RecordsFault): Found {
  return { id, weight: 'fault', seq: null, file: logFile, what, danger, mend }
}

const notTold = 'Whether runs were removed since it was kept cannot be told.'

function inconsistent(kept: number, size: number): Found {
  return asFound(size < kept ? shorterLog(logFile, kept, size) : forkedLog(logFile, kept), null, logFile)
}

/** What the log has against itself or a journal, as a finding of an audit. `file`: another than the one looked at. */
export function asFound({ id, weight, what, danger, mend }: LogFinding, seq: number | null, file?: string): Found {
  return { id, weight, seq, ...(file === undefined ? {} : { file }), what, danger, mend }
}

/** A site folder and a shared store have their leaves in different orders: nothing is wrong with either for that. */
function otherLog(kept: string, here: string): Found {
  const named = (origin: string): string => (isShared(origin) ? 'a shared store' : 'a site folder')
  return {
    id: 'checkpoint-of-another-log',
    weight: 'fault',
    seq: null,
    file: logFile,
    what: `The checkpoint that was kept is of the log of ${named(kept)} (\`${kept}\`); here lies that of ${named(here)} (\`${here}\`).`,
    danger: notTold,
    mend: 'Give a checkpoint of this log, or audit the one that it is of.'
  }
}
