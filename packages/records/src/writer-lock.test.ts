import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { basename, join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { inFolder } from '../fixtures/plant.js'
import { type Disk, realDisk } from './disk/disk.js'
import { onDisk } from './disk/disk-in-use.js'
import { lockForWriting } from './writer-lock.js'

describe('the lock of a journal', () => {
  const mark = (folder: string, holder: object): string => {
    const file = join(folder, 'a.jsonl.lock-9-0')
    writeFileSync(file, JSON.stringify(holder))
    return file
  }
  const own = (folder: string): { host: string; boot: string; pid: number; started: string } => {
    const held = lockForWriting(join(folder, 'b.jsonl'))
    const name = readdirSync(folder).find((one) => one.startsWith('b.jsonl.lock-')) ?? ''
    const holder = JSON.parse(readFileSync(join(folder, name), 'utf8'))
    if (held.ok) held.release()
    return holder
  }
  const takes = (folder: string): boolean => {
    const held = lockForWriting(join(folder, 'a.jsonl'))
    if (held.ok) held.release()
    return held.ok
  }

  it('goes to one of two in the same process, and to the other after the first let go', () => {
    inFolder((folder) => {
      const first = lockForWriting(join(folder, 'a.jsonl'))
      expect(first.ok).toBe(true)
      expect(takes(folder)).toBe(false)
      if (first.ok) first.release()
      expect(takes(folder)).toBe(true)
      expect(readdirSync(folder)).toEqual([])
    })
  })

  it('is not held by a process that is gone, by a later one with its number, or from before a restart', () => {
    inFolder((folder) => {
      const holder = own(folder)
      expect(holder.pid).toBe(process.pid)
      mark(folder, holder)
      expect(takes(folder)).toBe(false)
      // No such process can be: above the largest number that Linux gives out (proc(5), pid_max).
      mark(folder, { ...holder, pid: 4_194_305 })
      expect(takes(folder)).toBe(true)
      mark(folder, { ...holder, started: `${holder.started}0` })
      expect(takes(folder)).toBe(true)
      mark(folder, { ...holder, boot: 'another' })
      expect(takes(folder)).toBe(true)
      writeFileSync(join(folder, 'a.jsonl.lock-9-1'), '')
      expect(takes(folder)).toBe(true)
      expect(readdirSync(folder)).toEqual([])
    })
  })

  it('is taken to be held where the disk does not give the mark, and not where it keeps one that was let go', () => {
    inFolder((folder) => {
      const trouble = (code: string) => Object.assign(new Error(code), { code, syscall: 'read' })
      const file = mark(folder, own(folder))
      const blind: Disk = {
        ...realDisk,
        read: () => {
          throw trouble('EIO')
        }
      }
      expect(() => onDisk(blind, () => lockForWriting(join(folder, 'a.jsonl')))).toThrow('EIO')
      expect(readdirSync(folder)).toEqual([basename(file)])
      rmSync(file)
      let stuck = true
      const sticky: Disk = {
        ...realDisk,
        remove: (path) => {
          if (stuck && path.includes('.lock-') && !path.endsWith('.new')) throw trouble('EROFS')
          realDisk.remove(path)
        }
      }
      const held = onDisk(sticky, () => lockForWriting(join(folder, 'a.jsonl')))
      if (held.ok) held.release()
      expect(readdirSync(folder).length).toBe(1)
      stuck = false
      expect(takes(folder)).toBe(true)
      expect(readdirSync(folder)).toEqual([])
    })
  })

  it('is held by a process of another computer until a person decides', () => {
    inFolder((folder) => {
      const file = mark(folder, { ...own(folder), host: 'another-computer' })
      const held = lockForWriting(join(folder, 'a.jsonl'))
      expect(held).toEqual({ ok: false, file, host: 'another-computer', pid: process.pid })
      expect(readdirSync(folder)).toEqual(['a.jsonl.lock-9-0'])
    })
  })
})
