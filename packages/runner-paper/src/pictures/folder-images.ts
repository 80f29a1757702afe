import { createHash } from 'node:crypto'
import { closeSync, constants, fstatSync, openSync, readSync, realpathSync } from 'node:fs'
import { join, sep } from 'node:path'
import { type Loaded, type LoadImage, type PictureFault, pictureLimits } from './picture.js'
import { readPicture } from './read-picture.js'

/** The pictures of one folder, and what was wrong with those that were asked for and refused. */
export interface FolderImages {
  readonly load: LoadImage
  readonly faults: () => readonly PictureFault[]
  /** Those of these pictures that can be printed, each with the digest of the bytes that `load` gave or will give. */
  readonly seen: (sources: Iterable<string>) => readonly { readonly source: string; readonly sha256: string }[]
}

interface Found {
  readonly image: Loaded
  /** Of the file; null where it was refused. */
  readonly sha256: string | null
}

/**
 * Pictures from the folder of a procedure and below, and from nowhere else: no other place, no way up, no link that leads
 * out. Each is read once.
 */
export function folderImages(folder: string): FolderImages {
  const known = new Map<string, Found>()
  const find = (source: string): Found => {
    const found = known.get(source) ?? lookedFor(folder, source)
    known.set(source, found)
    return found
  }
  return {
    load: (source) => find(source).image,
    faults: () => [...known.values()].flatMap(({ image }) => (image.ok ? [] : [image.fault])),
    seen: (sources) =>
      [...sources].flatMap((source) => {
        const { sha256 } = find(source)
        return sha256 === null ? [] : [{ source, sha256 }]
      })
  }
}

function lookedFor(folder: string, source: string): Found {
  const fault = (what: string, mend: string): Found => ({
    image: { ok: false, fault: { source, what, mend } },
    sha256: null
  })
  const inside = 'put it into the folder of the procedure and name it from there'
  const path = pathOf(source)
  if (path === null) return fault('its name leads out of the folder of the procedure', inside)
  try {
    const [root, file] = [realpathSync(folder), realpathSync(join(folder, path))]
    if (!file.startsWith(root.endsWith(sep) ? root : root + sep))
      return fault('a link leads out of the folder of the procedure', inside)
    const bytes = bytesOf(file)
    if (bytes === 'no-file') return fault('it is not a file', inside)
    if (bytes === 'too-large')
      return fault(`it has more than ${pictureLimits.bytes / 1024 / 1024} MiB`, 'make it smaller')
    const read = readPicture(bytes)
    if (!read.ok) return fault(read.what, read.mend)
    return { image: read, sha256: createHash('sha256').update(bytes).digest('hex') }
  } catch {
    return fault('it cannot be read', `${inside}, readable for whoever prints`)
  }
}

/** A plain path below the folder; null for everything else. Names from Markdown may have their blanks as `%20`. */
function pathOf(source: string): string | null {
  let path: string
  try {
    path = decodeURIComponent(source)
  } catch {
    return null
  }
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is refused
  if (path === '' || /^[/~]|^[a-z][a-z0-9+.-]*:|[\\\u0000-\u001F\u007F]/i.test(path)) return null
  return path.split('/').includes('..') ? null : path
}

function bytesOf(file: string): Uint8Array | 'no-file' | 'too-large' {
  // Neither a link put there meanwhile is followed nor a pipe waited for.
  const handle = openSync(file, constants.O_RDONLY | constants.O_NOFOLLOW | constants.O_NONBLOCK)
  try {
    const status = fstatSync(handle)
    if (!status.isFile()) return 'no-file'
    if (status.size > pictureLimits.bytes) return 'too-large'
    const bytes = Buffer.alloc(status.size)
    let at = 0
    while (at < bytes.length) {
      const count = readSync(handle, bytes, at, bytes.length - at, at)
      if (count === 0) break
      at += count
    }
    return bytes.subarray(0, at)
  } finally {
    closeSync(handle)
  }
}
