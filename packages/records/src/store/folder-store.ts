import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { readChain, standingLines } from '../chain.js'
import { sha256Hex } from '../digest.js'
import { diskTrouble } from '../disk/disk-trouble.js'
import { writeDurably } from '../durable-file.js'
import { createJournal, openJournal } from '../journal.js'
import { layout, type Site } from '../site.js'
import { lockForWriting } from '../writer-lock.js'
import { documentConflict, documentFault, isDocument, partsOf } from './document-path.js'
import { folderLog, keepCheckpointIn } from './folder-log.js'
import { judgeAppend } from './judge-append.js'
import { judgeCheckpoint } from './judge-checkpoint.js'
import { judgeSigned } from './judge-signed.js'
import { listingOf } from './memory-store.js'
import { enteredSheets, sheetsOut } from './sheets-out.js'
import type { Appended, Kept, SignedName, Store, Superseded } from './store.js'
import { StoreFailure } from './store-failure.js'
import { isAsked, journalPath } from './stored-run.js'

/** The records of a site folder. The files are those of FORMAT.md; runners write into them while this reads. */
export function folderStore(site: Site): Store {
  const fileOf = (path: string): string => join(site.folder, ...path.split('/'))
  const read = (path: string): Uint8Array | null => (existsSync(fileOf(path)) ? readFileSync(fileOf(path)) : null)
  const names = (): readonly string[] => namesIn(layout.runs(site), /^[a-z0-9][a-z0-9-]{0,79}\.jsonl$/).map(runOf)
  const bytesOf = (run: string): Uint8Array => read(journalPath(run)) ?? new Uint8Array()
  const store: Store = {
    name: site.folder,
    runs: async (which = {}) => onDisk(site, () => listingOf(names(), bytesOf, (run) => isAsked(run, which))),
    runIds: async () => onDisk(site, names),
    // By its name alone: to list the folder for each of many runs would cost the square of their number.
    journal: async (run) => onDisk(site, () => (runName.test(run) ? read(journalPath(run)) : null)),
    heads: async (runs) =>
      onDisk(site, () => {
        const here = new Set(names())
        return new Map(
          runs.flatMap((run) => {
            const last = here.has(run) ? standingLines(readChain(bytesOf(run), run, run)) : []
            return last.length === 0 ? [] : [[run, { entries: last.length, hash: sha256Hex(last.at(-1)?.text ?? '') }]]
          })
        )
      }),
    append: async (run, from, lines) => onDisk(site, () => appendTo(site, run, from, lines)),
    documents: async (folder) =>
      onDisk(site, () =>
        namesIn(fileOf(folder))
          .filter((name) => isDocument(folder, name))
          .map((name) => ({ path: `${folder}/${name}`, sha256: sha256Hex(read(`${folder}/${name}`) ?? '') }))
      ),
    document: async (path) => onDisk(site, () => (partsOf(path) === null ? null : read(path))),
    keep: async (path, bytes) => onDisk(site, () => keepIn(fileOf(path), path, bytes)),
    sheetsOut: async () =>
      onDisk(site, () => {
        const { runs } = listingOf(names(), bytesOf, () => true)
        return sheetsOut(
          namesIn(fileOf('sheets')).map((name) => `sheets/${name}`),
          enteredSheets(runs)
        )
      }),
    signed: async (name) => onDisk(site, () => read(name)),
    supersede: async (name, bytes) => onDisk(site, () => supersedeIn(site, name, bytes, read)),
    ...folderLog(site, (body) => onDisk(site, body)),
    keepCheckpoint: async (note) => {
      const judged = await judgeCheckpoint(store, note)
      return judged.kind === 'keep' ? onDisk(site, () => keepCheckpointIn(site, judged.size, note)) : judged
    },
    close: async () => {}
  }
  return store
}

const runName = /^[a-z0-9][a-z0-9-]{0,79}$/
const runOf = (name: string): string => name.slice(0, -'.jsonl'.length)

function namesIn(folder: string, pattern = /./): readonly string[] {
  if (!existsSync(folder)) return []
  return readdirSync(folder)
    .filter((name) => pattern.test(name))
    .toSorted()
}

/** What the disk refuses is a failure of the store; anything else that is thrown is a mistake of ours. */
export function onDisk<Value>(site: Site, body: () => Value): Value {
  try {
    return body()
  } catch (error) {
    if ((error as NodeJS.ErrnoException).syscall === undefined) throw error
    throw new StoreFailure({
      id: 'store-failed',
      file: (error as NodeJS.ErrnoException).path ?? site.folder,
      what: `The site folder could not be read or written: ${diskTrouble(error)}.`,
      danger: 'What is on record cannot be told.',
      mend: 'Put the disk or its permissions right, and try again.'
    })
  }
}

function appendTo(site: Site, run: string, from: number, lines: readonly string[]): Appended {
  const file = layout.journal(site, run)
  const judge = (standing: readonly { readonly text: string }[]) =>
    judgeAppend(run, from, lines, {
      entries: standing.length,
      hashOf: (seq) => sha256Hex(standing[seq - 1]?.text ?? '')
    })
  // Judged before a file is made, and so that nobody who writes there now is disturbed by lines that stand already.
  const standing = existsSync(file) ? standingLines(readChain(readFileSync(file), file, run)) : []
  const before = judge(standing)
  if (before.kind !== 'add') return before
  if (before.lines.length === 0) return { kind: 'appended', added: 0, entries: standing.length }
  const journal = existsSync(file) ? openJournal(file) : createJournal(file)
  if (!journal.ok) return { kind: 'refused', run, fault: journal.faults[0] }
  try {
    const { reading } = journal.value
    const [damage] = reading.faults
    if (damage !== undefined) return { kind: 'refused', run, fault: damage }
    const judged = judge(reading.lines)
    if (judged.kind !== 'add') return judged
    for (const line of judged.lines) {
      const why = journal.value.append(line)
      if (why !== null) throw notWritten(file, why)
    }
    return { kind: 'appended', added: judged.lines.length, entries: reading.lines.length + judged.lines.length }
  } finally {
    journal.value.close()
  }
}

function keepIn(file: string, path: string, bytes: Uint8Array): Kept {
  const fault = documentFault(path, bytes)
  if (fault !== null) return { kind: 'refused', fault }
  const locked = lockForWriting(file)
  if (!locked.ok) throw busy(file, locked.file)
  try {
    if (!existsSync(file)) {
      writeDurably(file, bytes)
      return { kind: 'kept' }
    }
    const [here, offered] = [sha256Hex(readFileSync(file)), sha256Hex(bytes)]
    if (here === offered) return { kind: 'same' }
    return { kind: 'conflict', here, offered, fault: documentConflict(path, here, offered) }
  } finally {
    locked.release()
  }
}

function supersedeIn(
  site: Site,
  name: SignedName,
  bytes: Uint8Array,
  read: (path: string) => Uint8Array | null
): Superseded {
  const file = join(site.folder, name)
  const locked = lockForWriting(file)
  if (!locked.ok) throw busy(file, locked.file)
  try {
    const judged = judgeSigned(name, bytes, { roster: read('people.yaml'), current: read(name) })
    if (judged.kind !== 'take') return judged
    writeDurably(file, bytes)
    return { kind: 'kept', serial: judged.serial }
  } finally {
    locked.release()
  }
}

function busy(file: string, mark: string): StoreFailure {
  return new StoreFailure({
    id: 'in-use',
    file,
    what: 'Another process is writing this file right now.',
    danger: 'One of the two would be lost.',
    mend: `Try again in a moment. If no such process runs there any more, remove \`${mark}\`.`
  })
}

function notWritten(file: string, why: string): StoreFailure {
  return new StoreFailure({
    id: 'store-failed',
    file,
    what: `The journal could not be written: ${why}.`,
    danger: 'The last lines that were handed in are not on record here.',
    mend: 'Put the disk right, and hand them in again; lines that stand already are passed over.'
  })
}
