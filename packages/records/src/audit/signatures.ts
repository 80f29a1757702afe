import { canonicalJson } from '../canonical-json.js'
import type { JournalReading } from '../chain.js'
import type { Entry } from '../entry.js'
import { openDetached } from '../jws.js'
import { meaningOf } from '../may-do.js'
import type { Roster } from '../roster.js'
import { personOf } from '../roster-file.js'

/** `good` false: the signature does not hold, and `why` says so. */
export interface CheckedSignature {
  readonly good: boolean
  readonly why: string
}

/** Every signature of a journal, by sequence number. Without a roster none can be good. */
export function checkSignatures(reading: JournalReading, roster: Roster | null): ReadonlyMap<number, CheckedSignature> {
  const keys = roster?.people.flatMap((person) => (person.key === null ? [] : [person.key])) ?? []
  const checked = new Map<number, CheckedSignature>()
  for (const [index, line] of reading.lines.entries()) {
    if (line.entry === null || (line.entry.jws === undefined && line.entry.signature === undefined)) continue
    const why = faultOf(line.entry, roster, keys)
    checked.set(index + 1, { good: why === null, why: why ?? '' })
  }
  return checked
}

function faultOf(entry: Entry, roster: Roster | null, keys: readonly string[]): string | null {
  const { jws, ...payload } = entry
  const note = entry.signature
  if (jws === undefined) return 'it names a signer and bears no signature'
  if (note === undefined) return 'it bears a signature and names no signer'
  if (roster === null) return 'without a sound roster its key is not known'
  const opened = openDetached('lockwright-entry', canonicalJson(payload), jws, keys)
  if (!opened.ok) return opened.why
  if (personOf(roster, note.by)?.key !== opened.key) return `its key is not that of \`${note.by}\``
  if (note.by !== (entry.entered?.by ?? entry.by)) return `\`${note.by}\` signed what someone else answers for`
  if (note.at !== (entry.entered?.at ?? entry.at)) return 'its time is not that of the entry'
  const meaning = meaningOf(entry.event)
  const expected = entry.entered === undefined ? meaning : `Entered from paper: ${meaning}`
  return note.meaning === expected ? null : 'its meaning is not that of the entry'
}
