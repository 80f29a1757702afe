import { hash } from 'node:crypto'

/** SHA-256 as 64 lower-case hex digits; a text counts as its UTF-8 bytes. */
export function sha256Hex(content: string | Uint8Array): string {
  return hash('sha256', content, 'hex')
}

export const digestPattern = /^[0-9a-f]{64}$/
