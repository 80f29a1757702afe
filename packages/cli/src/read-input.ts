import { readFileSync } from 'node:fs'

/** The command could not do its work; the message is one sentence for the person who gave the command. */
export class CannotRun extends Error {
  override readonly name = 'CannotRun'
}

/** The bytes of a file that the caller named, or a `CannotRun` that says in plain words why not. */
export function readInput(file: string): Buffer {
  try {
    return readFileSync(file)
  } catch (error) {
    throw new CannotRun(`cannot read ${file}: ${whyNot(error)}`)
  }
}

/** What the system said, in words. */
export function whyNot(error: unknown): string {
  const code = error instanceof Error && 'code' in error ? String(error.code) : ''
  const known = reasons[code]
  if (known !== undefined) return known
  return error instanceof Error ? error.message : String(error)
}

const reasons: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file',
  EACCES: 'reading or writing it is not permitted',
  EPERM: 'the system does not permit it',
  EISDIR: 'it is a folder, not a file',
  ENOTDIR: 'a part of its path is not a folder',
  EEXIST: 'it exists already',
  ENOSPC: 'the disk is full',
  EROFS: 'the disk can only be read'
}
