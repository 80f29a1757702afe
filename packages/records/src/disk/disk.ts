import {
  closeSync,
  existsSync,
  fstatSync,
  fsyncSync,
  ftruncateSync,
  mkdirSync,
  openSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  writeSync
} from 'node:fs'

/** A file that is open for writing. */
export type Handle = number

/** Every way in which records touch a disk. Each of them throws what the operating system says (`code`: `ENOSPC`, `EIO`, ...). */
export interface Disk {
  /** `create`: a new name, else it throws `EEXIST`; `append`: writes go to the end; `rewrite`: writes go where they say. */
  open(file: string, how: 'create' | 'append' | 'rewrite', permissions?: number): Handle
  /** All of the bytes, or it throws. `position` in a file opened to rewrite; else at the end. */
  write(handle: Handle, bytes: Uint8Array, position?: number): void
  /** What was written through the handle lasts over a power cut once this returns. */
  sync(handle: Handle): void
  truncate(handle: Handle, size: number): void
  /** Bytes. */
  size(handle: Handle): number
  close(handle: Handle): void
  read(file: string): Uint8Array
  exists(file: string): boolean
  /** Names in a folder. */
  list(folder: string): readonly string[]
  /** One folder; what it lies in is there. */
  makeFolder(folder: string, permissions?: number): void
  rename(from: string, to: string): void
  /** Where there is no such file, nothing happens. */
  remove(file: string): void
  /** Names made, changed or taken away in the folder last over a power cut once this returns. */
  syncFolder(folder: string): void
}

const flags = { create: 'ax+', append: 'a+', rewrite: 'r+' } as const

/** The disk of this computer. */
export const realDisk: Disk = {
  open: (file, how, permissions = 0o644) => openSync(file, flags[how], permissions),
  write: (handle, bytes, position) => {
    // write(2) may take a part only.
    for (let done = 0; done < bytes.length; ) {
      const at = position === undefined ? null : position + done
      done += writeSync(handle, bytes, done, bytes.length - done, at)
    }
  },
  sync: fsyncSync,
  truncate: ftruncateSync,
  size: (handle) => fstatSync(handle).size,
  close: closeSync,
  read: (file) => readFileSync(file),
  exists: existsSync,
  list: (folder) => readdirSync(folder),
  makeFolder: (folder, permissions) => {
    mkdirSync(folder, permissions)
  },
  rename: renameSync,
  remove: (file) => rmSync(file, { force: true }),
  syncFolder: (folder) => {
    // Windows has no handle on a folder to sync; its file systems journal names themselves.
    if (process.platform === 'win32') return
    const handle = openSync(folder, 'r')
    try {
      fsyncSync(handle)
    } finally {
      closeSync(handle)
    }
  }
}
