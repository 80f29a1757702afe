import { createHash, createPublicKey, type KeyObject } from 'node:crypto'

/**
 * Bytes of an unpadded base64url text, or null. One spelling: the bits that the last character has left over are zero,
 * so no second text gives the same bytes.
 */
export function fromBase64url(text: string): Buffer | null {
  if (!/^[A-Za-z0-9_-]*$/.test(text)) return null
  const bytes = Buffer.from(text, 'base64url')
  return bytes.toString('base64url') === text ? bytes : null
}

/** Ed25519 public key from the base64url of its 32 bytes (`x` of RFC 8037); null where it is none. */
export function publicKeyFrom(x: string): KeyObject | null {
  if (fromBase64url(x)?.length !== 32) return null
  try {
    return createPublicKey({ key: { kty: 'OKP', crv: 'Ed25519', x }, format: 'jwk' })
  } catch {
    return null
  }
}

/** base64url of the 32 bytes of the public half of an Ed25519 key, private or public. */
export function publicBytesOf(key: KeyObject): string {
  const jwk = (key.type === 'private' ? createPublicKey(key) : key).export({ format: 'jwk' })
  if (jwk.crv !== 'Ed25519' || jwk.x === undefined) throw new TypeError('Not an Ed25519 key')
  return jwk.x
}

/** Thumbprint of a public key (RFC 7638 over the members that RFC 8037 requires): how signatures name their key. */
export function thumbprint(x: string): string {
  return createHash('sha256').update(`{"crv":"Ed25519","kty":"OKP","x":"${x}"}`).digest('base64url')
}
