import { printable, steering } from './printable.js'

/** A line for the reader, on standard output. */
export function sayLine(text: string): void {
  process.stdout.write(`${printable(text)}\n`)
}

/** A value for a program, on standard output; what could steer a terminal is escaped as JSON escapes it. */
export function sayJson(value: unknown): void {
  const json = JSON.stringify(value).replace(
    steering,
    (character) => `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`
  )
  process.stdout.write(`${json}\n`)
}

/** A line about what went wrong or what happens meanwhile, on standard error. */
export function sayError(text: string): void {
  process.stderr.write(`lockwright: ${printable(text)}\n`)
}

/** A line about what was done, on standard error, so that results on standard output stay clean. */
export function sayNote(text: string): void {
  process.stderr.write(`${printable(text)}\n`)
}
