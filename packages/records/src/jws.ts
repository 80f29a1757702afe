import { type KeyObject, sign, verify } from 'node:crypto'
import { canonicalJson, readCanonical } from './canonical-json.js'
import { fromBase64url, publicBytesOf, publicKeyFrom, thumbprint } from './public-key.js'

/** What was signed. It stands in the protected header, so a signature over one thing is none over another. */
export type SignedThing =
  | 'lockwright-entry'
  | 'lockwright-inspection'
  | 'lockwright-instruments'
  | 'lockwright-issue'
  | 'lockwright-root'
  | 'lockwright-roster'

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
  const claim = readDetached(thing, payload, jws)
  if (!claim.ok) return claim
  const key = known.find((candidate) => thumbprint(candidate) === claim.kid)
  if (key === undefined) return { ok: false, why: `its key ${claim.kid} is not known here` }
  const publicKey = publicKeyFrom(key)
  return publicKey !== null && verify(null, claim.input, publicKey, claim.signature)
    ? { ok: true, key }
    : { ok: false, why: misfit }
}

/** 64 bytes as base64url in its one spelling: the four bits that the last character has left over are zero. */
const signaturePattern = /^[A-Za-z0-9_-]{85}[AQgw]$/

/** What is said of a signature that is none of this payload. */
export const misfit = 'it does not fit what it stands under'

/** A detached signature of which only the key has still to be asked. */
export type Claim =
  | { readonly ok: true; readonly kid: string; readonly input: Uint8Array; readonly signature: Uint8Array }
  | { readonly ok: false; readonly why: string }

/** Takes a detached signature apart and checks its form. */
export function readDetached(thing: SignedThing, payload: string | Uint8Array, jws: string): Claim {
  const [head = '', middle, tail = '', ...rest] = jws.split('.')
  if (middle !== '' || rest.length > 0) return { ok: false, why: 'it is not a detached signature' }
  const header = readHeader(head)
  if (header === null || header.alg !== 'EdDSA' || header.typ !== thing) {
    return { ok: false, why: `its header is not that of a signature over ${nouns[thing]}` }
  }
  if (!signaturePattern.test(tail)) return { ok: false, why: misfit }
  const input = Buffer.from(`${head}.${base64url(payload)}`, 'latin1')
  return { ok: true, kid: header.kid, input, signature: Buffer.from(tail, 'base64url') }
}

const nouns: Record<SignedThing, string> = {
  'lockwright-entry': 'an entry',
  'lockwright-inspection': 'an inspection',
  'lockwright-issue': 'an issue',
  'lockwright-roster': 'a roster',
  'lockwright-root': 'a root key handed over',
  'lockwright-instruments': 'a list of instruments'
}

interface Header {
  readonly alg: unknown
  readonly kid: string
  readonly typ: unknown
}

/** A site has few keys, and a journal the same header over and over. */
const headers = new Map<string, Header | null>()
const mostHeaders = 1000
const longestHeader = 300

function readHeader(head: string): Header | null {
  const known = headers.get(head)
  if (known !== undefined) return known
  const header = parseHeader(head)
  if (headers.size >= mostHeaders) headers.clear()
  if (head.length <= longestHeader) headers.set(head, header)
  return header
}

function parseHeader(head: string): Header | null {
  const bytes = fromBase64url(head)
  const read = bytes === null ? { fault: '' } : readCanonical(bytes.toString('utf8'))
  if ('fault' in read || typeof read.value !== 'object' || read.value === null) return null
  const { alg, kid, typ, ...more } = read.value as Record<string, unknown>
  return typeof kid === 'string' && Object.keys(more).length === 0 ? { alg, kid, typ } : null
}
