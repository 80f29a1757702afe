import { execFileSync } from 'node:child_process'
import { randomBytes } from 'node:crypto'
import { readFileSync } from 'node:fs'
import { hostname } from 'node:os'
import { basename, dirname, join } from 'node:path'
import { bootId } from './boot-id.js'
import type { Disk } from './disk/disk.js'
import { diskInUse } from './disk/disk-in-use.js'
import { writeDurably } from './durable-file.js'

/** Who holds a lock: enough to tell a living process from one that is gone and from a later one with its number. */
interface Holder {
  readonly host: string
  /** Changes with each start of the computer. */
  readonly boot: string
  readonly pid: number
  /** Start of the process, in whatever the system counts; empty where it does not tell. */
  readonly started: string
}

export type Locked =
  | { readonly ok: true; release(): void }
  /** `file` is the mark of the process that holds it. */
  | { readonly ok: false; readonly file: string; readonly host: string; readonly pid: number }

/**
 * One writer for a file. Each process that wants to write puts a mark of its own beside the file and then looks for
 * others: of two at once at least one sees the other, so never both go on. Marks have names that are used once, so
 * that taking away the mark of a dead process can never take away that of a living one.
 */
export function lockForWriting(file: string): Locked {
  const prefix = `${basename(file)}.lock-`
  const folder = dirname(file)
  const own = `${prefix}${process.pid}-${randomBytes(6).toString('hex')}`
  const mark = join(folder, own)
  const disk = diskInUse()
  const release = (): void => takeAway(disk, mark)
  try {
    writeDurably(mark, `${JSON.stringify(ownHolder())}\n`)
    for (const name of disk.list(folder)) {
      if (name === own || !name.startsWith(prefix) || name.endsWith('.new')) continue
      const other = join(folder, name)
      const holder = readHolder(disk, other)
      if (holder === null || letGo.has(other) || isGone(holder)) takeAway(disk, other)
      else {
        release()
        return { ok: false, file: other, host: holder.host, pid: holder.pid }
      }
    }
  } catch (error) {
    release()
    throw error
  }
  return { ok: true, release }
}

/** Marks of this process that count no more, though the disk would not take them away. */
const letGo = new Set<string>()

function takeAway(disk: Disk, mark: string): void {
  letGo.add(mark)
  try {
    disk.remove(mark)
    letGo.delete(mark)
  } catch {
    // It holds nothing up: not in this process, and not once this process is gone.
  }
}

function ownHolder(): Holder {
  return { host: hostname(), boot: bootId(), pid: process.pid, started: startOf(process.pid) ?? '' }
}

/**
 * Null: it was taken away just now, or is the leftover of a power cut; a mark is put in place by renaming, whole. One
 * that the disk does not give may be that of a living process, so then it throws.
 */
function readHolder(disk: Disk, file: string): Holder | null {
  try {
    const value = JSON.parse(Buffer.from(disk.read(file)).toString('utf8')) as Partial<Holder> | null
    const { host, boot, pid, started } = value ?? {}
    const whole =
      typeof host === 'string' && typeof boot === 'string' && Number.isInteger(pid) && typeof started === 'string'
    return whole ? { host, boot, pid: pid as number, started } : null
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException
    if (error instanceof SyntaxError || code === 'ENOENT') return null
    throw error
  }
}

function isGone(holder: Holder): boolean {
  // A process of another computer cannot be looked at: it counts as alive, and a person has to decide.
  if (holder.host !== hostname()) return false
  if (holder.boot !== bootId()) return true
  const started = startOf(holder.pid)
  return started === null || (holder.started !== '' && started !== '' && started !== holder.started)
}

/** When the process was started; empty where the system does not say; null: there is no such process. */
function startOf(pid: number): string | null {
  try {
    process.kill(pid, 0)
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ESRCH') return null
  }
  try {
    if (process.platform === 'linux') {
      // proc(5): field 22, starttime; the fields after the command, which may hold blanks, start at the third.
      const stat = readFileSync(`/proc/${pid}/stat`, 'utf8')
      const fields = stat.slice(stat.lastIndexOf(')') + 2).split(' ')
      // A zombie holds nothing open any more.
      return fields[0] === 'Z' ? null : (fields[19] ?? '')
    }
    if (process.platform === 'win32') return ''
    return execFileSync('ps', ['-o', 'lstart=', '-p', String(pid)], { encoding: 'utf8', env: { LC_ALL: 'C' } }).trim()
  } catch {
    return ''
  }
}
