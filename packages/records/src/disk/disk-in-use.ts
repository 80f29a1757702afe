import { type Disk, realDisk } from './disk.js'

let inUse: Disk = realDisk

/** The disk that everything in this package writes to. */
export function diskInUse(): Disk {
  return inUse
}

/**
 * Puts another disk in its place while `body` runs, or until the promise that it gives is settled. For tests: there is one
 * real disk, and nobody else calls this.
 */
export function onDisk<Value>(disk: Disk, body: () => Value): Value {
  const before = inUse
  const restore = (): void => {
    inUse = before
  }
  inUse = disk
  let later = false
  try {
    const value = body()
    if (!(value instanceof Promise)) return value
    later = true
    return value.finally(restore) as Value
  } finally {
    if (!later) restore()
  }
}
