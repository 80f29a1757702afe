import { dirname } from 'node:path'
import type { Disk } from '../disk/disk.js'
import { diskInUse } from '../disk/disk-in-use.js'
import { sizeOf } from './log-reader.js'

/**
 * Writes behind the first `size` bytes of a file; what else stands there was cut off by a crash. On the disk when this
 * returns; where it throws, nothing of it counts.
 */
export function appendSynced(file: string, bytes: Uint8Array, size: number): void {
  const disk = diskInUse()
  if (sizeOf(file) > size) cutFile(file, size)
  const handle = disk.open(file, 'append')
  try {
    disk.write(handle, bytes)
    disk.sync(handle)
  } catch (error) {
    takeBack(disk, handle, size)
    throw error
  } finally {
    disk.close(handle)
  }
  disk.syncFolder(dirname(file))
}

/** Takes away what stands behind the first `size` bytes, and writes `again` there. */
export function cutFile(file: string, size: number, again: Uint8Array = new Uint8Array()): void {
  const disk = diskInUse()
  const handle = disk.open(file, 'rewrite')
  try {
    disk.truncate(handle, size + again.length)
    if (again.length > 0) disk.write(handle, again, size)
    disk.sync(handle)
  } finally {
    disk.close(handle)
  }
}

function takeBack(disk: Disk, handle: number, size: number): void {
  try {
    disk.truncate(handle, size)
    disk.sync(handle)
  } catch {
    // The next writer cuts off what stands behind the last part that counts.
  }
}
