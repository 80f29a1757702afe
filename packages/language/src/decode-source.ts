import type { Faults } from './faults.js'
import { codePointName, hiddenCharacter } from './hidden-characters.js'
import { LIMITS } from './scan/limits.js'
import { SourceText } from './source-text.js'

/** A file to parse, as it lies on disk or as text that was decoded already. */
export type ProcedureSource =
  | { readonly file: string; readonly bytes: Uint8Array }
  | { readonly file: string; readonly text: string }

const unwanted = new RegExp(
  String.raw`${hiddenCharacter.source}|\ufffd|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]`
)
const listed = 20

/**
 * The text of a file without its byte-order mark; undefined where it is too large to be looked at. Damage and control
 * characters are reported and left as they are.
 */
export function decodeSource(given: ProcedureSource, faults: Faults): SourceText | undefined {
  const size = 'bytes' in given ? given.bytes.length : sizeOf(given.text)
  if (size > LIMITS.bytes) {
    const nowhere = new SourceText(given.file, '')
    faults.add(
      'file-too-large',
      nowhere.place(0, 0),
      `The file has ${size.toLocaleString('en')} bytes, and ${LIMITS.bytes.toLocaleString('en')} are allowed.`,
      'Split it into several procedures.'
    )
    return undefined
  }
  const decoded = 'bytes' in given ? new TextDecoder('utf-8', { ignoreBOM: true }).decode(given.bytes) : given.text
  const source = new SourceText(given.file, decoded.startsWith('\ufeff') ? decoded.slice(1) : decoded)
  if (unwanted.test(source.text)) reportUnwanted(source, faults)
  return longLines(source, faults) ? undefined : source
}

/** UTF-8 bytes, counted only where they could matter. */
function sizeOf(text: string): number {
  if (text.length * 3 <= LIMITS.bytes || text.length > LIMITS.bytes) return text.length
  return new TextEncoder().encode(text).length
}

function reportUnwanted(source: SourceText, faults: Faults): void {
  let found = 0
  for (const match of source.text.matchAll(new RegExp(unwanted, 'g'))) {
    found += 1
    if (found > listed) return
    const place = source.place(match.index, match.index + 1)
    const code = match[0].charCodeAt(0)
    if (code === 0xfffd || (code >= 0xd800 && code <= 0xdfff)) {
      faults.add(
        'not-utf-8',
        place,
        'A character here is damaged: the file is not whole UTF-8 text.',
        'Save the file as UTF-8, and write the character again.'
      )
    } else {
      faults.add(
        'control-character',
        place,
        `There is a hidden control character here (${codePointName(match[0])}).`,
        'Take the character out.'
      )
    }
  }
}

function longLines(source: SourceText, faults: Faults): boolean {
  let found = false
  for (let line = 1; line <= source.lineCount; line += 1) {
    const length = source.endOf(line) - source.startOf(line)
    if (length <= LIMITS.lineLength) continue
    found = true
    faults.add(
      'line-too-long',
      source.place(source.startOf(line), source.endOf(line)),
      `This line has ${length.toLocaleString('en')} characters, and ${LIMITS.lineLength.toLocaleString('en')} are allowed.`,
      'Break the line.'
    )
  }
  return found
}
