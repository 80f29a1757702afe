import { type KeyObject, verify } from 'node:crypto'
import { canonicalJson } from '../canonical-json.js'
import type { JournalReading } from '../chain.js'
import type { Entry } from '../entry.js'
import { misfit, readDetached } from '../jws.js'
import { meaningOf } from '../may-do.js'
import { publicKeyFrom, thumbprint } from '../public-key.js'
import type { Roster } from '../roster.js'
import { personOf } from '../roster-file.js'
import { everyKey, keyDoubt, tellEnd } from '../roster-keys.js'

/** `good` false: the signature does not hold, and `why` says so. */
export interface CheckedSignature {
  readonly good: boolean
  readonly why: string
}

export type CheckedSignatures = ReadonlyMap<number, CheckedSignature>

/** One signature of which only the arithmetic is left; `why` says what is wrong already. */
type Pending =
  | { readonly seq: number; readonly why: string }
  | {
      readonly seq: number
      readonly why: null
      readonly key: KeyObject
      readonly input: Uint8Array
      readonly signature: Uint8Array
      /** What is wrong even where it holds. */
      readonly besides: string | null
    }

/** Every signature of a journal, by sequence number. Without a roster none can be good. */
export function checkSignatures(reading: JournalReading, roster: Roster | null): CheckedSignatures {
  const checked = new Map<number, CheckedSignature>()
  for (const one of pendingOf(reading, roster)) {
    checked.set(one.seq, told(one.why ?? (verify(null, one.input, one.key, one.signature) ? one.besides : misfit)))
  }
  return checked
}

/** The same with the arithmetic on the threads that Node keeps for it, so that the other cores work as well. */
export async function checkSignaturesBeside(
  reading: JournalReading,
  roster: Roster | null
): Promise<CheckedSignatures> {
  const checked = await Promise.all(
    pendingOf(reading, roster).map(async (one) => {
      const why = one.why ?? ((await holds(one.input, one.key, one.signature)) ? one.besides : misfit)
      return [one.seq, told(why)] as const
    })
  )
  return new Map(checked)
}

const told = (why: string | null): CheckedSignature => ({ good: why === null, why: why ?? '' })

function holds(input: Uint8Array, key: KeyObject, signature: Uint8Array): Promise<boolean> {
  return new Promise((resolve, reject) => {
    verify(null, input, key, signature, (error, good) => (error === null ? resolve(good) : reject(error)))
  })
}

function pendingOf(reading: JournalReading, roster: Roster | null): readonly Pending[] {
  const keys = roster === null ? new Map<string, RosterKey>() : keysOf(roster)
  return reading.lines.flatMap(({ entry, text }, index): readonly Pending[] => {
    if (entry === null || (entry.jws === undefined && entry.signature === undefined)) return []
    return [{ seq: index + 1, ...pending(entry, text, roster, keys) }]
  })
}

type Unplaced<Any> = Any extends unknown ? Omit<Any, 'seq'> : never

function pending(
  entry: Entry,
  text: string,
  roster: Roster | null,
  keys: ReadonlyMap<string, RosterKey>
): Unplaced<Pending> {
  const note = entry.signature
  if (entry.jws === undefined) return { why: 'it names a signer and bears no signature' }
  if (note === undefined) return { why: 'it bears a signature and names no signer' }
  if (roster === null) return { why: 'without a sound roster its key is not known' }
  const claim = readDetached('lockwright-entry', payloadOf(entry, text), entry.jws)
  if (!claim.ok) return { why: claim.why }
  const known = keys.get(claim.kid)
  if (known === undefined) return { why: `its key ${claim.kid} is not known here` }
  const besides = noteFault(entry, known.x, roster)
  return { why: null, key: known.key, input: claim.input, signature: claim.signature, besides }
}

/** The canonical bytes of the entry without its `jws`. The line is canonical, so taking the member out leaves them. */
function payloadOf(entry: Entry, text: string): string {
  const member = `"jws":"${entry.jws}",`
  const at = text.indexOf(member)
  if (at !== -1) return text.slice(0, at) + text.slice(at + member.length)
  const { jws: _, ...payload } = entry
  return canonicalJson(payload)
}

function noteFault(entry: Entry, key: string, roster: Roster): string | null {
  const note = entry.signature
  if (note === undefined) return 'it bears a signature and names no signer'
  const person = personOf(roster, note.by)
  const doubt = person === null ? null : keyDoubt(person, key, note.at)
  if (person === null || doubt?.kind === 'not-theirs') return `its key is not that of \`${note.by}\``
  // What a stolen key signs counts for nothing. Of one that ended otherwise, `fit` tells what it is worth.
  if (doubt?.kind === 'ended' && doubt.key.because === 'stolen') {
    return `the key of \`${note.by}\` ${tellEnd(doubt.key)}`
  }
  if (note.by !== (entry.entered?.by ?? entry.by)) return `\`${note.by}\` signed what someone else answers for`
  if (note.at !== (entry.entered?.at ?? entry.at)) return 'its time is not that of the entry'
  const meaning = meaningOf(entry.event)
  const expected = entry.entered === undefined ? meaning : `Entered from paper: ${meaning}`
  return note.meaning === expected ? null : 'its meaning is not that of the entry'
}

interface RosterKey {
  readonly x: string
  readonly key: KeyObject
}

const kept = new WeakMap<Roster, ReadonlyMap<string, RosterKey>>()

/** The keys of a roster by their thumbprints, made once: an audit asks for them at every signature. */
function keysOf(roster: Roster): ReadonlyMap<string, RosterKey> {
  const known = kept.get(roster)
  if (known !== undefined) return known
  const keys = new Map<string, RosterKey>()
  for (const x of everyKey(roster)) {
    const key = publicKeyFrom(x)
    if (key !== null) keys.set(thumbprint(x), { x, key })
  }
  kept.set(roster, keys)
  return keys
}
