import { sha256Hex } from './digest.js'
import type { Entry } from './entry.js'
import { parseEntry } from './entry-shape.js'
import type { RecordsFault } from './result.js'

/** One whole line of a journal. */
export interface JournalLine {
  readonly text: string
  /** Null where the line is no entry. */
  readonly entry: Entry | null
}

/** A journal as it was found: every whole line, what does not fit, and what lies behind the last line end. */
export interface JournalReading {
  readonly lines: readonly JournalLine[]
  /** In the order of the lines. */
  readonly faults: readonly RecordsFault[]
  /** Bytes behind the last line end: the rest of a write that was cut off. Empty: none. */
  readonly torn: Uint8Array
  /** Bytes of the whole lines. */
  readonly whole: number
}

const lineEnd = 0x0a

/** Reads a journal and checks its form and its chain; `run` is what its file name says. */
export function readChain(bytes: Uint8Array, file: string, run?: string): JournalReading {
  const faults: RecordsFault[] = []
  const lines: JournalLine[] = []
  let from = 0
  let expected: string | null = null
  for (let end = bytes.indexOf(lineEnd); end !== -1; end = bytes.indexOf(lineEnd, from)) {
    const raw = bytes.subarray(from, end)
    from = end + 1
    const seq = lines.length + 1
    const parsed = parseLine(raw)
    const entry = 'entry' in parsed ? parsed.entry : null
    const first = lines[0]?.entry ?? entry
    const why = 'fault' in parsed ? [parsed.fault] : misfits(parsed.entry, seq, expected, run ?? first?.run ?? '')
    for (const what of why) faults.push(brokenLine(file, seq, what))
    lines.push({ text: Buffer.from(raw).toString('utf8'), entry })
    expected = sha256Hex(raw)
  }
  return { lines, faults, torn: bytes.subarray(from), whole: from }
}

function parseLine(raw: Uint8Array): { readonly entry: Entry } | { readonly fault: string } {
  const text = Buffer.from(raw).toString('utf8')
  if (!Buffer.from(text).equals(raw)) return { fault: 'it is not UTF-8' }
  return parseEntry(text)
}

/** What an entry says of its own place, against the place where it stands. */
function misfits(entry: Entry, seq: number, expected: string | null, run: string): readonly string[] {
  const why: string[] = []
  if (entry.run !== run) why.push(`it belongs to run \`${entry.run}\``)
  if (entry.seq !== seq) why.push(`it bears the number ${entry.seq}`)
  if ((entry.opens !== undefined) !== (seq === 1)) why.push(seq === 1 ? 'it opens no run' : 'it opens a run')
  if ((entry.event.kind === 'opened') !== (seq === 1)) why.push('only the first entry is the opening')
  const before = seq === 1 ? entry.opens?.machine : expected
  if (before !== undefined && entry.prev !== before) {
    why.push(seq === 1 ? 'it is not chained to its machine' : 'it is not chained to the line before')
  }
  return why
}

function brokenLine(file: string, line: number, why: string): RecordsFault {
  return {
    id: 'chain-broken',
    file,
    line,
    what: `Line ${line} is not what was written: ${why}.`,
    danger: 'A step may have been changed, left out, put in or moved after the fact.',
    mend: 'Compare with another copy of the journal. Do not rely on anything from this line on.'
  }
}
