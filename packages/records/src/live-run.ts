import { advance, type PersonId, type Snapshot } from '@lockwright/machine'
import type { ProvedMachine } from '@lockwright/proof'
import { canonicalJson } from './canonical-json.js'
import type { Clock } from './clock.js'
import { sha256Hex } from './digest.js'
import { whereDiskHolds } from './disk/disk-trouble.js'
import { watchElsewhere } from './elsewhere/watch-elsewhere.js'
import { type BareEvent, type Entry, eventOf, type Opening, type RunId, type SignatureNote } from './entry.js'
import { eventFault } from './entry-shape.js'
import { instrumentRefusals } from './instruments/instrument-refusals.js'
import type { Journal } from './journal.js'
import { signDetached } from './jws.js'
import { logClosedRun } from './log/log-closed-run.js'
import { mayDo, maySign, needsSignature } from './may-do.js'
import { good } from './result.js'
import type { Run, RunEvent, RunMode, RunRefusal, Signer, Taken } from './run-types.js'
import { sessionClock } from './session-clock.js'
import { instant } from './shape.js'
import type { Site } from './site.js'
import { stillWaiting } from './steady-wait.js'

/** Everything a run stands on. */
export interface LiveRun {
  readonly id: RunId
  readonly site: Site
  readonly machine: ProvedMachine
  readonly mode: RunMode
  /** Who types in a run from paper; null: stepped as it happens. */
  readonly enteredBy: PersonId | null
  readonly clock: Clock
  readonly journal: Journal
  readonly opens: Opening
  readonly entries: readonly Entry[]
  readonly snapshot: Snapshot
}

/** A run that moves: each entry is on the disk before the snapshot changes. */
export function liveRun(from: LiveRun): Run {
  const { machine, journal } = from
  const entries = [...from.entries]
  let snapshot = from.snapshot
  let prev = entries.length === 0 ? from.opens.machine : sha256Hex(journal.reading.lines.at(-1)?.text ?? '')
  const time = sessionClock(from)
  const elsewhere = watchElsewhere(from)

  const move = (event: RunEvent, signer: Signer | null): Taken => {
    const { by, at: told, ...rest } = event
    const bare = rest as BareEvent
    const now = time.now()
    const at = from.enteredBy === null ? now.at : (told ?? now.at)
    const entry: Entry = {
      run: from.id,
      seq: entries.length + 1,
      prev,
      at,
      elapsed: now.elapsed,
      session: now.session,
      by,
      state: snapshot.state,
      event: bare,
      ...(entries.length === 0 ? { opens: from.opens } : {}),
      ...(from.enteredBy === null ? {} : { entered: { at: now.at, by: from.enteredBy } })
    }
    const shape = eventFault(bare) ?? instant(at)
    if (shape !== null) return refused([incomplete(`The answer cannot be recorded: it ${shape}.`)])
    const grounds = { ...from, entries }
    const barred =
      signer === null && needsSignature(from, bare)
        ? [noKey]
        : [...mayDo(from, entry, snapshot), ...instrumentRefusals(grounds, entry, snapshot)]
    if (barred.length > 0) return refused(barred)
    const early = from.enteredBy === null ? stillWaiting(machine, entries, entry) : null
    if (early !== null) return refused([early])
    const note = signer === null ? null : maySign(from, entry, signer)
    if (note !== null && !note.ok) return refused([note.refusal])
    const advanced = advance(machine, snapshot, eventOf(entry))
    if (!advanced.ok) return advanced
    const others = elsewhere.refusals(entries, entry, snapshot, advanced.snapshot)
    if (others.length > 0) return refused(others)
    const whole = note === null || signer === null ? entry : signed(entry, note.value, signer)
    const line = canonicalJson(whole)
    time.note()
    const failed = journal.append(line)
    if (failed !== null) return refused([notWritten(failed)])
    entries.push(whole)
    prev = sha256Hex(line)
    snapshot = advanced.snapshot
    if (bare.kind === 'finished' || bare.kind === 'stopped') logClosedRun(from.site, entries, line)
    return { ok: true, snapshot, entry: whole }
  }

  return {
    id: from.id,
    mode: from.mode,
    machine,
    file: journal.file,
    setAside: journal.setAside,
    get snapshot() {
      return snapshot
    },
    get entries() {
      return entries
    },
    get elsewhere() {
      return elsewhere.seen(entries)
    },
    get warnings() {
      return time.isByWall && waitsIn(snapshot) ? [byWallAlone] : []
    },
    take: (event) => whereDiskReads(() => move(event, null)),
    sign: (event, signer) => whereDiskReads(() => move(event, signer)),
    close: () => journal.close()
  }
}

/** What an answer is held against is read from the disk too; nothing is written before that. */
function whereDiskReads(move: () => Taken): Taken {
  const moved = whereDiskHolds('', () => good(move()))
  return moved.ok ? moved.value : refused([notWritten(moved.faults[0].what)])
}

/** Puts the note under the signature too: name, time and meaning cannot be changed after the fact. */
function signed(entry: Entry, signature: SignatureNote, signer: Signer): Entry {
  const noted = { ...entry, signature }
  return { ...noted, jws: signDetached('lockwright-entry', canonicalJson(noted), signer.key) }
}

/** Whether a wait is under way where the run stands. */
function waitsIn({ progress }: Snapshot): boolean {
  return Object.values(progress.waits).some(({ over }) => !over)
}

const byWallAlone =
  'A wait was under way when this run was broken off, and since then nothing but the wall clock of this computer has counted it. If that clock was set meanwhile, the wait is not what it seems: compare it with another clock, and wait the whole time again where in doubt.'

function refused(refusals: readonly RunRefusal[]): Taken {
  return { ok: false, refusals: refusals as readonly [RunRefusal, ...RunRefusal[]] }
}

const incomplete = (why: string): RunRefusal => ({
  kind: 'incomplete',
  obligation: null,
  why,
  mend: 'Give the answer again.'
})

const noKey: RunRefusal = {
  kind: 'no-key',
  obligation: null,
  why: 'This has to be signed by the person who answers for it.',
  mend: 'Have that person unlock their key and sign.'
}

const notWritten = (why: string): RunRefusal => ({
  kind: 'not-written',
  obligation: null,
  why: `The entry could not be written to the disk: ${why.replace(/\.$/, '')}.`,
  mend: 'Stay at this step. Free space on the disk or bring it back, then give the answer again.'
})
