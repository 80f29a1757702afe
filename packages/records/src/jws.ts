import { type KeyObject, sign, verify } from 'node:crypto'
import { canonicalJson, readCanonical } from './canonical-json.js'
import { fromBase64url, publicBytesOf, publicKeyFrom, thumbprint } from './public-key.js'

/** What was signed. It stands in the protected header, so a signature over one thing is none over another. */
export type SignedThing = 'lockwright-entry' | 'lockwright-issue' | 'lockwright-roster'

/** A signature as it was found: by which key, or why it does not hold. */
export type Opened = { readonly ok: true; readonly key: string } | { readonly ok: false; readonly why: string }

const base64url = (content: string | Uint8Array): string => Buffer.from(content).toString('base64url')

/** Compact JWS (RFC 7515, section 7.1) with EdDSA (RFC 8037) over a header that is given as text. */
export function compactJws(header: string, payload: Uint8Array, key: KeyObject): string {
  const input = `${base64url(header)}.${base64url(payload)}`
  return `${input}.${base64url(sign(null, Buffer.from(input), key))}`
}

/** Whether the signature of a compact JWS is that of the key. */
export function compactJwsHolds(jws: string, key: KeyObject): boolean {
  const [header = '', payload = '', signature = '', ...rest] = jws.split('.')
  const bytes = fromBase64url(signature)
  return rest.length === 0 && bytes?.length === 64 && verify(null, Buffer.from(`${header}.${payload}`), key, bytes)
}

/** Signs a payload; what comes back is the JWS with its middle part left out (RFC 7515, appendix F). */
export function signDetached(thing: SignedThing, payload: string | Uint8Array, key: KeyObject): string {
  const header = canonicalJson({ alg: 'EdDSA', kid: thumbprint(publicBytesOf(key)), typ: thing })
  const [head, , signature] = compactJws(header, Buffer.from(payload), key).split('.')
  return `${head}..${signature}`
}

/**
 * Opens a detached signature with the keys that are known, base64url each. It holds only in the one spelling that
 * `signDetached` gives: canonical header, its three members, no bit left over.
 */
export function openDetached(
  thing: SignedThing,
  payload: string | Uint8Array,
  jws: string,
  known: readonly string[]
): Opened {
  const [head = '', middle, signature = '', ...rest] = jws.split('.')
  if (middle !== '' || rest.length > 0) return { ok: false, why: 'it is not a detached signature' }
  const header = readHeader(head)
  if (header === null || header.alg !== 'EdDSA' || header.typ !== thing) {
    return { ok: false, why: `its header is not that of a signature over ${nouns[thing]}` }
  }
  const key = known.find((candidate) => thumbprint(candidate) === header.kid)
  if (key === undefined) return { ok: false, why: `its key ${header.kid} is not known here` }
  const publicKey = publicKeyFrom(key)
  return publicKey !== null && compactJwsHolds(`${head}.${base64url(payload)}.${signature}`, publicKey)
    ? { ok: true, key }
    : { ok: false, why: 'it does not fit what it stands under' }
}

const nouns: Record<SignedThing, string> = {
  'lockwright-entry': 'an entry',
  'lockwright-issue': 'an issue',
  'lockwright-roster': 'a roster'
}

function readHeader(head: string): { readonly alg: unknown; readonly kid: string; readonly typ: unknown } | null {
  const bytes = fromBase64url(head)
  const read = bytes === null ? { fault: '' } : readCanonical(bytes.toString('utf8'))
  if ('fault' in read || typeof read.value !== 'object' || read.value === null) return null
  const { alg, kid, typ, ...more } = read.value as Record<string, unknown>
  return typeof kid === 'string' && Object.keys(more).length === 0 ? { alg, kid, typ } : null
}
