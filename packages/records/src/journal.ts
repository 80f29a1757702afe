import { closeSync, existsSync, fstatSync, fsyncSync, ftruncateSync, openSync, readFileSync } from 'node:fs'
import { basename, dirname } from 'node:path'
import { type JournalReading, readChain } from './chain.js'
import { syncFolder, writeDurably, writeWhole } from './durable-file.js'
import { bad, good, type RecordsResult } from './result.js'
import { type Locked, lockForWriting } from './writer-lock.js'

/** What was found at the end of a journal that a crash cut off, and where it was kept. */
export interface SetAside {
  readonly file: string
  readonly bytes: number
}

/** A journal open for writing: the only one, on any computer. */
export interface Journal {
  readonly file: string
  /** What stood in it when it was opened; whole lines only. */
  readonly reading: JournalReading
  readonly setAside: SetAside | null
  /** Once this returns null, the line is on the disk. Else nothing of it is, and it says why. */
  append(line: string): string | null
  close(): void
}

/** How bytes get onto the disk. The tests put a full disk here. */
export interface Disk {
  write(handle: number, bytes: Uint8Array): void
  sync(handle: number): void
}

const realDisk: Disk = { write: writeWhole, sync: fsyncSync }

/** Makes a new journal. Its name is on the disk when this returns. */
export function createJournal(file: string, disk: Disk = realDisk): RecordsResult<Journal> {
  const locked = lockForWriting(file)
  if (!locked.ok) return inUse(file, locked)
  if (existsSync(file)) {
    locked.release()
    return bad({
      id: 'run-exists',
      file,
      what: 'A run of this name is on record already.',
      danger: 'Its record would be overwritten.',
      mend: 'Give the new run another name, or resume the old one.'
    })
  }
  const handle = openSync(file, 'ax+', 0o644)
  syncFolder(dirname(file))
  return good(journalOn(handle, file, readChain(new Uint8Array(), file), null, locked, disk))
}

/**
 * Opens a journal to go on with it. A last line that a crash cut off is copied to `<run>.torn-<n>` first and then taken
 * away; nothing else is ever changed.
 */
export function openJournal(file: string, disk: Disk = realDisk): RecordsResult<Journal> {
  if (!existsSync(file)) {
    return bad({
      id: 'no-such-run',
      file,
      what: 'There is no such run on record.',
      danger: 'Nothing can be gone on with.',
      mend: 'Look the run up in the list of runs.'
    })
  }
  const locked = lockForWriting(file)
  if (!locked.ok) return inUse(file, locked)
  const bytes = readFileSync(file)
  const found = readChain(bytes, file, basename(file, '.jsonl'))
  const whole = wholeLines(found)
  const reading = whole === bytes.length ? found : readChain(bytes.subarray(0, whole), file, basename(file, '.jsonl'))
  const handle = openSync(file, 'a+')
  const setAside = whole === bytes.length ? null : setTornAside(file, bytes.subarray(whole))
  if (setAside !== null) {
    ftruncateSync(handle, whole)
    fsyncSync(handle)
  }
  return good(journalOn(handle, file, reading, setAside, locked, disk))
}

/**
 * Length of the lines that were written whole. A power cut can leave the end of a write on the disk without its middle:
 * a last line that ends but is no entry is torn as well. A line before it was synced first, so there it is damage.
 */
function wholeLines(found: JournalReading): number {
  const last = found.lines.at(-1)
  if (found.torn.length > 0 || last === undefined || last.entry !== null) return found.whole
  return found.whole - Buffer.byteLength(last.text) - 1
}

function setTornAside(file: string, torn: Uint8Array): SetAside {
  const name = (n: number): string => file.replace(/\.jsonl$/, `.torn-${n}`)
  let n = 1
  while (existsSync(name(n))) n += 1
  writeDurably(name(n), torn)
  return { file: name(n), bytes: torn.length }
}

function journalOn(
  handle: number,
  file: string,
  reading: JournalReading,
  setAside: SetAside | null,
  lock: Extract<Locked, { readonly ok: true }>,
  disk: Disk
): Journal {
  let size = fstatSync(handle).size
  let open = true
  return {
    file,
    reading,
    setAside,
    append: (line) => {
      if (!open) return 'the journal was closed'
      if (fstatSync(handle).size !== size) return 'something else wrote into the journal'
      const bytes = Buffer.from(`${line}\n`)
      try {
        disk.write(handle, bytes)
        disk.sync(handle)
      } catch (error) {
        takeBack(handle, size)
        return (error as Error).message
      }
      size += bytes.length
      return null
    },
    close: () => {
      if (!open) return
      open = false
      closeSync(handle)
      lock.release()
    }
  }
}

/** After a failed write; where this fails too, the size no longer fits and nothing more is appended. */
function takeBack(handle: number, size: number): void {
  try {
    ftruncateSync(handle, size)
    fsyncSync(handle)
  } catch {
    // The next reader finds a torn line and sets it aside.
  }
}

function inUse(file: string, lock: Extract<Locked, { readonly ok: false }>): RecordsResult<never> {
  return bad({
    id: 'in-use',
    file,
    what: `Process ${lock.pid} on ${lock.host} is writing this journal.`,
    danger: 'Two people would step one run without knowing of each other.',
    mend: `Go on there, or close it there first. If no such process runs there any more, remove \`${lock.file}\`.`
  })
}
