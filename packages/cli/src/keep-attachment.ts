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
const mostBytes = 50_000_000

/** Longer text is no note of somebody at a machine. */
const mostText = 1_000_000

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
    const unfit = whyUnfit(bytes)
    if (unfit !== null) return refuse(`\`${path}\` ${unfit}`)
    const sha256 = createHash('sha256').update(bytes).digest('hex')
    const folder = join(site.folder, 'attachments')
    if (!existsSync(join(folder, sha256))) write(folder, sha256, bytes)
    return { ok: true, name: basename(path), sha256 }
  } catch (error) {
    return refuse(`\`${path}\` could not be kept: ${whyNot(error)}.`)
  }
}

/** Pictures, PDF and text alone: whoever reads the record must be able to open it, and nothing in it may be run. */
function whyUnfit(bytes: Buffer): string | null {
  if (bytes.length === 0) return 'is empty.'
  if (isPicture(bytes) || bytes.subarray(0, 5).toString('latin1') === '%PDF-') return null
  if (!isText(bytes)) {
    return 'is no picture, no PDF and no text by what it holds. Save it as one of these.'
  }
  return bytes.length > mostText ? `is text longer than ${mostText / 1e6} MB. Save what matters of it.` : null
}

/** By the first bytes that each format fixes: JPEG, PNG, GIF, TIFF, WebP, and the family of HEIC and AVIF. */
function isPicture(bytes: Buffer): boolean {
  const text = (from: number, to: number): string => bytes.subarray(from, to).toString('latin1')
  const lead = bytes.subarray(0, 4).toString('hex')
  return (
    lead.startsWith('ffd8ff') ||
    ['89504e47', '49492a00', '4d4d002a', '47494638'].includes(lead) ||
    (text(0, 4) === 'RIFF' && text(8, 12) === 'WEBP') ||
    (text(4, 8) === 'ftyp' && ['heic', 'heix', 'mif1', 'msf1', 'avif'].includes(text(8, 12)))
  )
}

/** UTF-8 without control characters but those that set lines. */
function isText(bytes: Buffer): boolean {
  try {
    return !/(?![\t\n\r\f])\p{Cc}/u.test(new TextDecoder('utf-8', { fatal: true }).decode(bytes))
  } catch {
    return false
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
