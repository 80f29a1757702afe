import { createHash, type KeyObject, sign, verify } from 'node:crypto'
import { fromBase64url, publicBytesOf, publicKeyFrom } from '../public-key.js'

/** A public key and the name that it signs notes under. */
export interface NoteKey {
  readonly name: string
  /** Ed25519 public key, base64url of its 32 bytes. */
  readonly key: string
}

/** Notes are short; a longer one is no checkpoint. */
const longestNote = 65_536
const ed25519 = Uint8Array.of(0x01)

/** A name that a C2SP signed note may bear: no blanks, no plus, nothing that steers. */
export function isKeyName(name: string): boolean {
  return name !== '' && !/[\p{Z}\p{C}\s+]/u.test(name)
}

/** `text` ends in a line feed. Signs it as C2SP signed-note says, with Ed25519. */
export function signNote(text: string, name: string, key: KeyObject): string {
  if (!text.endsWith('\n') || !isKeyName(name)) throw new RangeError('not a note')
  const signature = Buffer.concat([keyId({ name, key: publicBytesOf(key) }), sign(null, Buffer.from(text), key)])
  return `${text}\n— ${name} ${signature.toString('base64')}\n`
}

/** A note as it was found: its text and by which of the known keys it is signed, or why it is not to be believed. */
export type OpenedNote =
  | { readonly ok: true; readonly text: string; readonly by: readonly [NoteKey, ...NoteKey[]] }
  | { readonly ok: false; readonly why: string; readonly signers: readonly string[] }

/**
 * Opens a note with the keys that are known. Signatures of other keys are passed over, as the specification asks; one
 * of a known key that does not fit spoils the note.
 */
export function openNote(note: string, known: readonly NoteKey[]): OpenedNote {
  const parts = noteParts(note)
  if (parts === null) return { ok: false, why: 'it is not a signed note', signers: [] }
  const signers = parts.signatures.map(({ name }) => name)
  const by: NoteKey[] = []
  for (const { name, bytes } of parts.signatures) {
    const key = known.find((one) => one.name === name && keyId(one).equals(bytes.subarray(0, 4)))
    if (key === undefined) continue
    const publicKey = publicKeyFrom(key.key)
    if (publicKey === null || !verify(null, Buffer.from(parts.text), publicKey, bytes.subarray(4))) {
      return { ok: false, why: `the signature of \`${name}\` does not fit the text`, signers }
    }
    by.push(key)
  }
  const [first, ...more] = by
  return first === undefined
    ? { ok: false, why: 'no key that is known here signed it', signers }
    : { ok: true, text: parts.text, by: [first, ...more] }
}

interface NoteParts {
  readonly text: string
  readonly signatures: readonly { readonly name: string; readonly bytes: Buffer }[]
}

function noteParts(note: string): NoteParts | null {
  const end = note.lastIndexOf('\n\n')
  // biome-ignore lint/suspicious/noControlCharactersInRegex: the specification bars exactly these
  const barred = /[\u0000-\u0009\u000b-\u001f]|\p{Surrogate}/u
  if (note.length > longestNote || end === -1 || !note.endsWith('\n') || barred.test(note)) return null
  const lines = note.slice(end + 2, -1).split('\n')
  const signatures = lines.map((line) => {
    const [, name = '', base64 = ''] = /^— (\S+) (\S+)$/u.exec(line) ?? []
    return { name, bytes: fromBase64(base64) }
  })
  const whole = signatures.flatMap(({ name, bytes }) =>
    bytes !== null && bytes.length > 4 && isKeyName(name) ? [{ name, bytes }] : []
  )
  return whole.length === lines.length ? { text: note.slice(0, end + 1), signatures: whole } : null
}

/** First four bytes of SHA-256 over name, line feed, 0x01 and key: how a note names its key. */
export function keyId({ name, key }: NoteKey): Buffer {
  const bytes = fromBase64url(key) ?? Buffer.alloc(0)
  return createHash('sha256').update(`${name}\n`).update(ed25519).update(bytes).digest().subarray(0, 4)
}

/** `name+key id+base64`, the form in which verifiers of signed notes take a key. */
export function formatNoteKey(key: NoteKey): string {
  const bytes = Buffer.concat([ed25519, fromBase64url(key.key) ?? Buffer.alloc(0)])
  return `${key.name}+${keyId(key).toString('hex')}+${bytes.toString('base64')}`
}

/** The key of a text in that form; null where it is none, or its key id is not that of the key. */
export function parseNoteKey(text: string): NoteKey | null {
  const [, name = '', id = '', base64 = ''] = /^([^+]+)\+([0-9a-f]{8})\+(.+)$/u.exec(text) ?? []
  const bytes = fromBase64(base64)
  if (bytes === null || bytes.length !== 33 || bytes[0] !== 1 || !isKeyName(name)) return null
  const key = { name, key: bytes.subarray(1).toString('base64url') }
  return keyId(key).toString('hex') === id && publicKeyFrom(key.key) !== null ? key : null
}

/** Bytes of a padded base64 text in its one spelling; null where it is none. */
export function fromBase64(text: string): Buffer | null {
  const bytes = Buffer.from(text, 'base64')
  return text !== '' && bytes.toString('base64') === text ? bytes : null
}
