import { createPrivateKey } from 'node:crypto'
import { describe, expect, it } from 'vitest'
import { keyOf } from '../fixtures/plant.js'
import { compactJws, compactJwsHolds, openDetached, signDetached } from './jws.js'
import { fromBase64url, publicBytesOf, publicKeyFrom, thumbprint } from './public-key.js'

// RFC 8037, appendix A.1 and A.2.
const d = 'nWGxne_9WmC6hEr0kuwsxERJxWl7MmkZcDusAxyuf2A'
const x = '11qYAYKxCrfVS_7TyWQHOg7hcvPapiMlrwIaaPcHURo'
const key = createPrivateKey({ key: { kty: 'OKP', crv: 'Ed25519', d, x }, format: 'jwk' })
const publicKey = publicKeyFrom(x)

describe('RFC 8037, appendix A', () => {
  // A.4
  const jws =
    'eyJhbGciOiJFZERTQSJ9.RXhhbXBsZSBvZiBFZDI1NTE5IHNpZ25pbmc.' +
    'hgyY0il_MGCjP0JzlnLWG1PPOt7-09PGcvMg3AIbQR6dWbhijcNR4ki4iylGjg5BhVsPt9g7sVvpAr_MuM0KAg'

  it('A.3: the thumbprint', () => {
    expect(thumbprint(x)).toBe('kPrK_qmxVWaYVA9wwBF6Iuo3vVzz7TxHCTwXBygrS4k')
    expect(publicBytesOf(key)).toBe(x)
  })

  it('A.4: signing', () => {
    expect(compactJws('{"alg":"EdDSA"}', Buffer.from('Example of Ed25519 signing'), key)).toBe(jws)
  })

  it('A.5: validation', () => {
    if (publicKey === null) return expect.fail('the key of A.2 is refused')
    expect(compactJwsHolds(jws, publicKey)).toBe(true)
    expect(compactJwsHolds(jws.replace('RXhh', 'RXhi'), publicKey)).toBe(false)
  })
})

describe('a detached signature', () => {
  const other = publicBytesOf(keyOf('someone else'))
  const jws = signDetached('lockwright-entry', 'payload', key)
  const open = (text: string, known: readonly string[] = [other, x], payload = 'payload') =>
    openDetached('lockwright-entry', payload, text, known)

  it('opens with the key that made it, whichever others are known', () => {
    expect(open(jws)).toEqual({ ok: true, key: x })
  })

  it('holds its payload in the middle for a reader of whole JWS', () => {
    const whole = jws.replace('..', `.${Buffer.from('payload').toString('base64url')}.`)
    expect(publicKey !== null && compactJwsHolds(whole, publicKey)).toBe(true)
  })

  it('does not open over anything else, under another key, or as another thing', () => {
    expect(open(jws, [x], 'payloaD').ok).toBe(false)
    expect(open(jws, [other]).ok).toBe(false)
    expect(openDetached('lockwright-roster', 'payload', jws, [x]).ok).toBe(false)
  })

  it('has one spelling', () => {
    const [, , signature = ''] = jws.split('.')
    const head = (header: object): string => Buffer.from(JSON.stringify(header)).toString('base64url')
    const kid = thumbprint(x)
    const again = (header: object): string => compactJws(JSON.stringify(header), Buffer.from('payload'), key)
    const detached = (whole: string): string => whole.replace(/\..*\./, '..')
    expect(open(detached(again({ alg: 'EdDSA', kid, typ: 'lockwright-entry' }))).ok).toBe(true)
    expect(open(detached(again({ alg: 'EdDSA', crit: [], kid, typ: 'lockwright-entry' }))).ok).toBe(false)
    expect(open(detached(again({ kid, alg: 'EdDSA', typ: 'lockwright-entry' }))).ok).toBe(false)
    expect(open(detached(again({ alg: 'none', kid, typ: 'lockwright-entry' }))).ok).toBe(false)
    expect(open(`${head({ alg: 'none', kid, typ: 'lockwright-entry' })}..`).ok).toBe(false)
    expect(open(`${jws}=`).ok).toBe(false)
    expect(open(`${jws}.`).ok).toBe(false)
    expect(open(jws.replace('..', '.x.')).ok).toBe(false)
    // The last of 86 characters has four bits left over: only the one with zeros there counts.
    expect(fromBase64url(signature)?.length).toBe(64)
    const next = String.fromCharCode(signature.charCodeAt(85) + 1)
    expect(Buffer.from(signature.slice(0, 85) + next, 'base64url')).toEqual(Buffer.from(signature, 'base64url'))
    expect(open(jws.slice(0, -1) + next).ok).toBe(false)
  })
})
