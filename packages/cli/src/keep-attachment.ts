import { createHash } from 'node:crypto'
import {
  closeSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync
} from 'node:fs'
import { basename, join } from 'node:path'
import type { Site } from '@lockwright/records'
import type { Kept } from '@lockwright/runner-terminal'
import { whyNot } from './read-input.js'

/** A photo is a few megabytes; the limit keeps a mistyped path from filling the disk of the site. */
const mostBytes = 100_000_000

/** Copies a file into `attachments/` of the site under its SHA-256; on the disk before this returns. */
export function keepAttachment(site: Site, path: string): Kept {
  const mend = 'Give the path of a photo or another file, such as `attach photos/seal.jpg`.'
  const refuse = (why: string): Kept => ({ ok: false, why, mend })
  try {
    const found = statSync(path, { throwIfNoEntry: false })
    if (found === undefined) return refuse(`There is no file \`${path}\`.`)
    if (!found.isFile()) return refuse(`\`${path}\` is not a file.`)
    if (found.size > mostBytes) return refuse(`\`${path}\` is larger than ${mostBytes / 1e6} MB.`)
    const bytes = readFileSync(path)
    const sha256 = createHash('sha256').update(bytes).digest('hex')
    const folder = join(site.folder, 'attachments')
    if (!existsSync(join(folder, sha256))) write(folder, sha256, bytes)
    return { ok: true, name: basename(path), sha256 }
  } catch (error) {
    return refuse(`\`${path}\` could not be kept: ${whyNot(error)}.`)
  }
}

/** Under its name stands the whole file or none: what a crash cuts off bears another name. */
function write(folder: string, name: string, bytes: Uint8Array): void {
  mkdirSync(folder, { recursive: true })
  const beside = join(folder, `${name}.${process.pid}.new`)
  rmSync(beside, { force: true })
  const handle = openSync(beside, 'wx')
  try {
    writeFileSync(handle, bytes)
    fsyncSync(handle)
  } finally {
    closeSync(handle)
  }
  renameSync(beside, join(folder, name))
}
