import { closeSync, fsyncSync, mkdirSync, openSync, renameSync, rmSync, writeSync } from 'node:fs'
import { dirname } from 'node:path'

/** Writes a file so that after a crash there is either the old content or the whole new one. */
export function writeDurably(file: string, content: string | Uint8Array, mode = 0o644): void {
  mkdirSync(dirname(file), { recursive: true })
  const beside = `${file}.${process.pid}.new`
  rmSync(beside, { force: true })
  const handle = openSync(beside, 'wx', mode)
  try {
    writeWhole(handle, Buffer.from(content))
    fsyncSync(handle)
  } finally {
    closeSync(handle)
  }
  renameSync(beside, file)
  syncFolder(dirname(file))
}

/** write(2) may take a part only. */
export function writeWhole(handle: number, bytes: Uint8Array): void {
  for (let done = 0; done < bytes.length; ) done += writeSync(handle, bytes, done)
}

/** Makes a created or renamed name itself last over a power cut. */
export function syncFolder(folder: string): void {
  // Windows has no handle on a folder to sync; its file systems journal names themselves.
  if (process.platform === 'win32') return
  const handle = openSync(folder, 'r')
  try {
    fsyncSync(handle)
  } finally {
    closeSync(handle)
  }
}
