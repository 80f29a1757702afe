import { parseEntry } from '../entry-shape.js'
import type { Evidence } from './evidence.js'
import { count, type Found } from './verdict.js'

const forged = 'Someone may have written in the name of another, or changed what was signed.'
const compare = 'Compare with another copy of the journal, and ask the person named.'

/** Whether anything was changed: chain, signatures, roster, issue. */
export function whole(evidence: Evidence): { readonly found: readonly Found[]; readonly checked: readonly string[] } {
  const signed = [...evidence.signatures.values()].filter((signature) => signature.good).length
  const checked = [
    `Chain of ${count(evidence.reading.lines.length, 'entry', 'entries')}, in canonical form`,
    `${count(signed, 'signature')} of ${evidence.signatures.size} good`
  ]
  if (evidence.roster !== null) checked.push(`Roster ${evidence.roster.serial}, signed by the root key`)
  if (evidence.issue !== null) checked.push(`Machine issued by ${evidence.issue.name} on ${evidence.issue.at}`)
  for (const torn of evidence.tornFiles) {
    checked.push(`Incomplete last line of ${count(torn.bytes.length, 'byte')} set aside after a crash: ${torn.file}`)
  }
  const found = [
    ...evidence.reading.faults.map((fault) => asFound(fault, fault.line)),
    ...(evidence.rosterFault === null ? [] : [asFound(evidence.rosterFault, null)]),
    ...issueFound(evidence),
    ...signaturesFound(evidence),
    ...endFound(evidence)
  ]
  return { found, checked }
}

function asFound(
  fault: { readonly id: string; readonly what: string; readonly danger: string; readonly mend: string },
  seq: number | null
): Found {
  const { id, what, danger, mend } = fault
  return { id, weight: 'fault', seq, what, danger, mend }
}

/** A draft or a rehearsal says itself that it was not issued; that is for `followed` to tell. */
function issueFound(evidence: Evidence): readonly Found[] {
  if (evidence.fault === null || evidence.summary?.mode !== 'issued' || evidence.fault === evidence.rosterFault)
    return []
  return [asFound(evidence.fault, 1)]
}

function signaturesFound(evidence: Evidence): readonly Found[] {
  return [...evidence.signatures].flatMap(([seq, signature]) =>
    signature.good
      ? []
      : [
          {
            id: 'signature-bad',
            weight: 'fault',
            seq,
            what: `The signature of entry ${seq} does not hold: ${signature.why}.`,
            danger: forged,
            mend: compare
          }
        ]
  )
}

function endFound(evidence: Evidence): readonly Found[] {
  const found: Found[] = []
  const last = evidence.reading.lines.length
  if (last === 0) {
    found.push({
      id: 'nothing-begun',
      weight: 'fault',
      seq: null,
      what: 'The journal holds no whole entry.',
      danger: 'Nothing is on record of this run.',
      mend: 'Look for another copy of the journal.'
    })
  }
  if (evidence.reading.torn.length > 0) {
    found.push({
      id: 'torn-line',
      weight: 'doubt',
      seq: null,
      what: `Behind entry ${last} stand ${count(evidence.reading.torn.length, 'byte')} of a line that was not written whole.`,
      danger: 'The writer was cut off in the middle of an entry, or the end of the file was changed.',
      mend: 'Resume the run, which sets the bytes aside; else compare with another copy.'
    })
  }
  const covered = Math.max(0, ...[...evidence.signatures].flatMap(([seq, signature]) => (signature.good ? [seq] : [])))
  if (covered < last) {
    found.push({
      id: 'unsigned-end',
      weight: 'doubt',
      seq: covered + 1,
      what: `No signature stands over ${covered + 1 === last ? `entry ${last}` : `entries ${covered + 1} to ${last}`}.`,
      danger: 'Whoever can write the file could have changed these entries and chained them anew.',
      mend: 'Have the run closed with a signature. For a closed run, ask those who were there.'
    })
  }
  for (const torn of evidence.tornFiles) {
    if (!('entry' in parseEntry(Buffer.from(torn.bytes).toString('utf8').replace(/\n$/, '')))) continue
    found.push({
      id: 'entry-set-aside',
      weight: 'doubt',
      seq: null,
      what: `What was set aside in ${torn.file} is a whole entry.`,
      danger: 'An entry may have been taken out of the journal.',
      mend: 'Read it, and ask the person it names whether it was answered twice.'
    })
  }
  return found
}
