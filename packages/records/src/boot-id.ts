import { readFileSync } from 'node:fs'

/** Changes with each start of the computer; empty where the system does not tell. */
export function bootId(): string {
  try {
    return readFileSync('/proc/sys/kernel/random/boot_id', 'utf8').trim()
  } catch {
    // Not Linux.
    return ''
  }
}
