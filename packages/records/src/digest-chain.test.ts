import { createHash, createPublicKey, verify } from 'node:crypto'
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, it } from 'vitest'

// What an auditor can do with FORMAT.md in hand and without a line of ours: these tests import nothing but Node.
const site = join(import.meta.dirname, '..', 'fixtures', 'golden-v1', 'site')
const sha256 = (content: string | Buffer): string => createHash('sha256').update(content).digest('hex')
const lines = readFileSync(join(site, 'runs', 'golden.jsonl'), 'utf8')
  .split('\n')
  .slice(0, -1)

it('the chain of a journal is checked with node:crypto alone', () => {
  const [machine = ''] = readdirSync(join(site, 'issued')).filter((name) => name.endsWith('.json'))
  let prev = sha256(readFileSync(join(site, 'issued', machine)))
  expect(`${prev}.json`).toBe(machine)
  for (const line of lines) {
    expect(JSON.parse(line).prev).toBe(prev)
    prev = sha256(line)
  }
  expect(lines.length).toBe(27)
})

it('the signatures of a journal are checked with node:crypto alone', () => {
  const people = readFileSync(join(site, 'people.yaml'), 'utf8')
  const keys = [...people.matchAll(/^ {4}key: (\S{43})$/gm)].map((match) => match[1] ?? '')
  const byThumbprint = new Map(
    keys.map((x) => [createHash('sha256').update(`{"crv":"Ed25519","kty":"OKP","x":"${x}"}`).digest('base64url'), x])
  )
  let signed = 0
  for (const line of lines) {
    const { jws } = JSON.parse(line)
    if (jws === undefined) continue
    const [head, , signature] = jws.split('.')
    // The line is canonical: taking its member `jws` out leaves the canonical form of the rest.
    const payload = Buffer.from(line.replace(`"jws":"${jws}",`, '')).toString('base64url')
    const { alg, kid } = JSON.parse(Buffer.from(head, 'base64url').toString())
    expect(alg).toBe('EdDSA')
    const x = byThumbprint.get(kid) ?? ''
    const key = createPublicKey({ key: { kty: 'OKP', crv: 'Ed25519', x }, format: 'jwk' })
    expect(verify(null, Buffer.from(`${head}.${payload}`), key, Buffer.from(signature, 'base64url'))).toBe(true)
    signed += 1
  }
  expect(signed).toBe(2)
})

it('what FORMAT.md shows is what lies in the golden site', () => {
  const page = readFileSync(join(import.meta.dirname, '..', 'FORMAT.md'), 'utf8')
  const shown = [...page.matchAll(/```(?:jsonl|yaml|text|json)\n(.*?)```/gs)].map((match) => match[1])
  const issued = readdirSync(join(site, 'issued')).find((name) => name.endsWith('.jws')) ?? ''
  for (const name of [join('runs', 'example.jsonl'), 'people.yaml', join('issued', issued)]) {
    expect(shown).toContain(readFileSync(join(site, name), 'utf8'))
  }
  const [, middle = ''] = readFileSync(join(site, 'issued', issued), 'utf8').split('.')
  expect(shown).toContain(`${Buffer.from(middle, 'base64url')}\n`)
})
