import { dirname } from 'node:path'
import { diskInUse } from './disk/disk-in-use.js'

/** Writes a file so that after a crash there is either the old content or the whole new one. Throws what the disk says. */
export function writeDurably(file: string, content: string | Uint8Array, mode = 0o644): void {
  const disk = diskInUse()
  makeFolderDurably(dirname(file))
  const beside = `${file}.${process.pid}.new`
  disk.remove(beside)
  try {
    const handle = disk.open(beside, 'create', mode)
    try {
      disk.write(handle, Buffer.from(content))
      disk.sync(handle)
    } finally {
      disk.close(handle)
    }
    disk.rename(beside, file)
  } catch (error) {
    leaveNothing(beside)
    throw error
  }
  disk.syncFolder(dirname(file))
}

/** Makes a folder and what it lies in, where they are missing; their names last over a power cut. */
export function makeFolderDurably(folder: string, mode?: number): void {
  const disk = diskInUse()
  if (disk.exists(folder)) return
  makeFolderDurably(dirname(folder))
  try {
    disk.makeFolder(folder, mode)
  } catch (error) {
    // Another process made it at the same moment.
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error
  }
  disk.syncFolder(dirname(folder))
}

/** Makes a created or renamed name itself last over a power cut. */
export function syncFolder(folder: string): void {
  diskInUse().syncFolder(folder)
}

function leaveNothing(beside: string): void {
  try {
    diskInUse().remove(beside)
  } catch {
    // A disk that refuses this too leaves a file behind that nobody reads.
  }
}
