import { brokenFrom } from '../chain.js'
import { parseEntry } from '../entry-shape.js'
import type { Evidence } from './evidence.js'
import { issuedLater } from './issued-later.js'
import { count, type Found } from './verdict.js'

const forged = 'Someone may have written in the name of another, or changed what was signed.'
const compare = 'Compare with another copy of the journal, and ask the person named.'

/** Whether anything was changed: chain, signatures, roster, issue. */
export function whole(evidence: Evidence): { readonly found: readonly Found[]; readonly checked: readonly string[] } {
  const checked: string[] = []
  if (evidence.roster !== null) checked.push(`Roster ${evidence.roster.serial}, signed by the root key`)
  if (evidence.issue !== null) {
    const later = issuedLater(evidence) ? ', after this run was opened' : ''
    checked.push(`Machine issued by ${evidence.issue.name} on ${evidence.issue.at}${later}`)
  }
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
  return { found, checked: [...linksChecked(evidence, found.length === 0), ...checked] }
}

/** What chain and signatures cover. Of a journal that is not whole nothing is said that reads as a good mark. */
function linksChecked({ reading, signatures }: Evidence, sound: boolean): readonly string[] {
  const last = reading.lines.length
  const broken = brokenFrom(reading)
  const standing = [...signatures].flatMap(([seq, { good }]) => (good && seq < (broken ?? last + 1) ? [seq] : []))
  const signed = `${count(standing.length, 'signature')} of ${signatures.size}`
  const one = standing.length === 1
  const covered = standing.at(-1) ?? 0
  const over = covered === 0 ? '' : `, over ${covered === 1 ? 'line 1' : `lines 1 to ${covered}`}`
  if (broken !== null) {
    const follow = last - broken + 1
    return [
      broken === 1
        ? 'No line before the break of the chain'
        : `Chain of the ${count(broken - 1, 'line')} before line ${broken}`,
      `${broken === last ? 'Line' : 'Lines'} ${broken}${broken === last ? '' : ` to ${last}`}: ${count(follow, 'entry follows', 'entries follow')} the break; nothing of it may be relied on`,
      `${signed} ${one ? 'stands' : 'stand'} before line ${broken} and still ${one ? 'verifies' : 'verify'}${over}`
    ]
  }
  if (sound) return [`Chain of ${count(last, 'entry', 'entries')}, in canonical form`, `${signed} good${over}`]
  return [
    `${count(last, 'line')} chained to each other, which whoever can write the file can do anew`,
    `${signed} ${one ? 'verifies' : 'verify'}${over}`
  ]
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
            what: `The signature does not hold: ${signature.why}.`,
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
  // What follows a break is told with the break.
  const end = (brokenFrom(evidence.reading) ?? last + 1) - 1
  const good = [...evidence.signatures].flatMap(([seq, signature]) => (signature.good && seq <= end ? [seq] : []))
  const covered = Math.max(0, ...good)
  if (covered < end) {
    found.push({
      id: 'unsigned-end',
      weight: 'doubt',
      seq: covered + 1,
      what: `No signature stands over ${covered + 1 === end ? `entry ${end}` : `entries ${covered + 1} to ${end}`}.`,
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
