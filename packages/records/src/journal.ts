import { basename, dirname } from 'node:path'
import { type JournalReading, readChain, standingLines } from './chain.js'
import type { Disk, Handle } from './disk/disk.js'
import { diskInUse } from './disk/disk-in-use.js'
import { diskTrouble, whereDiskHolds } from './disk/disk-trouble.js'
import { writeDurably } from './durable-file.js'
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
  /** Once this returns null, the line is on the disk. Else nothing of it counts, and it says why. */
  append(line: string): string | null
  close(): void
}

type Held = Extract<Locked, { readonly ok: true }>

/** Makes a new journal. Its name is on the disk when this returns. */
export function createJournal(file: string): RecordsResult<Journal> {
  return whileLocked(file, (lock, disk) => {
    if (disk.exists(file)) {
      return bad({
        id: 'run-exists',
        file,
        what: 'A run of this name is on record already.',
        danger: 'Its record would be overwritten.',
        mend: 'Give the new run another name, or resume the old one.'
      })
    }
    const handle = disk.open(file, 'create')
    const nothing = readChain(new Uint8Array(), file)
    const journal = journalOn({ disk, handle, file, reading: nothing, setAside: null, lock, fresh: true })
    return closedOnFault(journal, () => disk.syncFolder(dirname(file)))
  })
}

/**
 * Opens a journal to go on with it. A last line that a crash cut off is copied to `<run>.torn-<n>` first and then taken
 * away; nothing else is ever changed. What `reading` holds is on the disk when this returns.
 */
export function openJournal(file: string): RecordsResult<Journal> {
  if (!diskInUse().exists(file)) {
    return bad({
      id: 'no-such-run',
      file,
      what: 'There is no such run on record.',
      danger: 'Nothing can be gone on with.',
      mend: 'Look the run up in the list of runs.'
    })
  }
  return whileLocked(file, (lock, disk) => {
    const bytes = disk.read(file)
    const found = readChain(bytes, file, basename(file, '.jsonl'))
    const whole = wholeLines(bytes, found)
    const reading = whole === bytes.length ? found : readChain(bytes.subarray(0, whole), file, basename(file, '.jsonl'))
    const setAside = whole === bytes.length ? null : setTornAside(disk, file, bytes.subarray(whole))
    makeLast(disk, file, bytes.subarray(0, whole), setAside !== null)
    const handle = disk.open(file, 'append')
    return good(journalOn({ disk, handle, file, reading, setAside, lock, fresh: false }))
  })
}

/** Holds the lock over the making of a journal, and lets go where none comes of it. */
function whileLocked(file: string, body: (lock: Held, disk: Disk) => RecordsResult<Journal>): RecordsResult<Journal> {
  return whereDiskHolds(file, () => {
    const locked = lockForWriting(file)
    if (!locked.ok) return inUse(file, locked)
    let made = false
    try {
      const result = body(locked, diskInUse())
      made = result.ok
      return result
    } finally {
      if (!made) locked.release()
    }
  })
}

function closedOnFault(journal: Journal, body: () => void): RecordsResult<Journal> {
  try {
    body()
    return good(journal)
  } catch (error) {
    journal.close()
    throw error
  }
}

/** Bytes of the lines that count. By the file and not by their text: one that was torn need not be UTF-8. */
function wholeLines(bytes: Uint8Array, found: JournalReading): number {
  if (standingLines(found).length === found.lines.length) return found.whole
  return bytes.subarray(0, found.whole - 1).lastIndexOf(lineEnd) + 1
}

function setTornAside(disk: Disk, file: string, torn: Uint8Array): SetAside {
  const name = (n: number): string => file.replace(/\.jsonl$/, `.torn-${n}`)
  let n = 1
  while (disk.exists(name(n))) n += 1
  writeDurably(name(n), torn)
  return { file: name(n), bytes: torn.length }
}

const lineEnd = 0x0a

/**
 * Makes sure of what was read. A writer that was killed before its sync, or whose sync failed, leaves a last line that
 * every reader sees and that is not on the disk; after a failed sync the system may count it as written all the same.
 * So the last line is written once more over itself, and synced: each line before it was, before it was written.
 */
function makeLast(disk: Disk, file: string, whole: Uint8Array, cut: boolean): void {
  const handle = disk.open(file, 'rewrite')
  try {
    if (cut) disk.truncate(handle, whole.length)
    const last = whole.subarray(0, -1).lastIndexOf(lineEnd) + 1
    if (last < whole.length) disk.write(handle, whole.subarray(last), last)
    disk.sync(handle)
  } finally {
    disk.close(handle)
  }
  disk.syncFolder(dirname(file))
}

interface Opened {
  readonly disk: Disk
  readonly handle: Handle
  readonly file: string
  readonly reading: JournalReading
  readonly setAside: SetAside | null
  readonly lock: Held
  /** Made just now; where nothing comes of it, it is taken away again. */
  readonly fresh: boolean
}

function journalOn({ disk, handle, file, reading, setAside, lock, fresh }: Opened): Journal {
  let size = reading.whole
  let closed: string | null = null
  return {
    file,
    reading,
    setAside,
    append: (line) => {
      if (closed !== null) return closed
      const bytes = Buffer.from(`${line}\n`)
      try {
        if (disk.size(handle) !== size) return 'something else wrote into the journal'
        disk.write(handle, bytes)
        disk.sync(handle)
      } catch (error) {
        if (!tookBack(disk, handle, size)) closed = unsure
        return closed === null ? diskTrouble(error) : `${diskTrouble(error)}, and ${closed}`
      }
      size += bytes.length
      return null
    },
    close: () => {
      if (closed === over) return
      const empty = fresh && size === 0 && closed === null
      closed = over
      disk.close(handle)
      if (empty) removeQuietly(disk, file)
      lock.release()
    }
  }
}

/** Of a run that was never opened nothing is on record; an empty file that stays is told by the list of runs. */
function removeQuietly(disk: Disk, file: string): void {
  try {
    disk.remove(file)
  } catch {
    // The disk refuses everything just now.
  }
}

const over = 'the journal was closed'
const unsure =
  'what the disk holds of the last line cannot be told. Nothing more is written to this journal until the run is closed and taken up again'

/** After a failed write or sync. Where this fails too, nothing that the disk says of this file can be believed. */
function tookBack(disk: Disk, handle: Handle, size: number): boolean {
  try {
    disk.truncate(handle, size)
    disk.sync(handle)
    return true
  } catch {
    // The next to open the journal finds a torn line, or a whole one that nobody was told of, and makes sure of it.
    return false
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
