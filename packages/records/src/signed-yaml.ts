import type { KeyObject } from 'node:crypto'
import { parseDocument, stringify } from 'yaml'
import { type SignedThing, signDetached } from './jws.js'
import type { Shape } from './shape.js'

/** YAML, and as its last line a signature over all bytes before it: the form of the roster and of the instruments. */
export function formatSignedYaml(thing: SignedThing, value: object, key: KeyObject): string {
  const body = stringify(value, { lineWidth: 0 })
  return `${body}signature: ${signDetached(thing, body, key)}\n`
}

/** The bytes before the last line, and the signature that the last line holds; null where there is none. */
export function splitSignedYaml(bytes: Uint8Array): { readonly body: string; readonly signature: string } | null {
  const content = Buffer.from(bytes).toString('utf8')
  const match = /^(.*\n)signature: ([A-Za-z0-9._-]+)\n$/s.exec(content)
  if (match === null || !Buffer.from(content).equals(bytes)) return null
  const [, body = '', signature = ''] = match
  return { body, signature }
}

/** What stands in the body, if it has that shape; `fault` is a whole sentence. */
export function readSignedBody(body: string, shape: Shape): { readonly value: unknown } | { readonly fault: string } {
  const document = parseDocument(body)
  if (document.errors.length > 0) return { fault: `It is not YAML: ${document.errors[0]?.message ?? ''}` }
  const value: unknown = document.toJS({ maxAliasCount: 0 })
  const fault = shape(value)
  return fault === null ? { value } : { fault: `In it, ${fault}.` }
}
