import { isUtf8 } from 'node:buffer'
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
  /** In the order of the lines; one for each place where the chain breaks. */
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
  let expected: Expected = { seq: 1, run: run ?? null, hash: null }
  for (let end = bytes.indexOf(lineEnd); end !== -1; end = bytes.indexOf(lineEnd, from)) {
    const raw = bytes.subarray(from, end)
    from = end + 1
    const line = lines.length + 1
    const text = Buffer.from(raw.buffer, raw.byteOffset, raw.byteLength).toString('utf8')
    const parsed = isUtf8(raw) ? parseEntry(text) : { fault: 'it is not UTF-8' }
    const entry = 'entry' in parsed ? parsed.entry : null
    if ('fault' in parsed) faults.push(brokenLine(file, line, [parsed.fault]))
    else faults.push(...misfit(parsed.entry, line, file, expected))
    lines.push({ text, entry })
    // Told once, where it begins: what follows a break is held against what stands before it there.
    expected = {
      seq: (entry?.seq ?? expected.seq) + 1,
      run: entry?.run ?? expected.run,
      hash: entry === null ? null : sha256Hex(raw)
    }
  }
  return { lines, faults, torn: bytes.subarray(from), whole: from }
}

/**
 * The lines that count for the next writer. A power cut can leave the end of a write on the disk without its middle: a last
 * line that ends but is no entry is torn as well, and set aside. A line before it was synced first, so there it is damage.
 */
export function standingLines({ lines, torn }: JournalReading): readonly JournalLine[] {
  return torn.length === 0 && lines.at(-1)?.entry === null ? lines.slice(0, -1) : lines
}

/** Line from which on nothing may be relied on; null: the chain is unbroken. */
export function brokenFrom({ faults }: JournalReading): number | null {
  return faults.reduce<number | null>(
    (least, { line }) => (line === null ? least : Math.min(least ?? line, line)),
    null
  )
}

/** What the line before makes of this one. `hash` null: no line before, or one that is told already. */
interface Expected {
  readonly seq: number
  readonly run: string | null
  readonly hash: string | null
}

/** What an entry says of its own place, against the place where it stands. */
function misfit(entry: Entry, line: number, file: string, expected: Expected): readonly RecordsFault[] {
  const why: string[] = []
  if (expected.run !== null && entry.run !== expected.run) why.push(`it belongs to run \`${entry.run}\``)
  if (entry.seq !== expected.seq) why.push(`it bears the number ${entry.seq}`)
  if ((entry.opens !== undefined) !== (line === 1)) why.push(line === 1 ? 'it opens no run' : 'it opens a run')
  else if ((entry.event.kind === 'opened') !== (line === 1)) why.push('only the first entry is the opening')
  if (expected.hash !== null && entry.prev !== expected.hash) return [brokenLink(file, line, why)]
  if (line === 1 && entry.opens !== undefined && entry.prev !== entry.opens.machine) {
    why.push('it is not chained to its machine')
  }
  return why.length === 0 ? [] : [brokenLine(file, line, why)]
}

const danger = 'A step may have been changed, left out, put in or moved after the fact.'

function brokenLine(file: string, line: number, why: readonly string[]): RecordsFault {
  return {
    id: 'chain-broken',
    file,
    line,
    what: `Line ${line} is not what was written: ${why.join(', and ')}.`,
    danger,
    mend: `Compare with another copy of the journal. Do not rely on anything from line ${line} on.`
  }
}

/** Which of the two lines was changed the chain cannot tell, so the earlier one is no more to be relied on. */
function brokenLink(file: string, line: number, why: readonly string[]): RecordsFault {
  const before = line - 1
  const also = why.length === 0 ? '' : ` Besides, of line ${line}: ${why.join(', and ')}.`
  return {
    id: 'chain-broken',
    file,
    line: before,
    what: `Line ${before} or line ${line} was changed after it was written, or a line between them is gone: line ${line} keeps the hash of what stood before it, and that is not line ${before} as it stands now.${also}`,
    danger,
    mend: `Compare with another copy of the journal. Do not rely on anything from line ${before} on.`
  }
}
