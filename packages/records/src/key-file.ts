import {
  createCipheriv,
  createDecipheriv,
  createPrivateKey,
  type KeyObject,
  randomBytes,
  scryptSync
} from 'node:crypto'
import { fromBase64url, publicBytesOf } from './public-key.js'
import { bad, good, type RecordsResult } from './result.js'

/** scrypt cost (RFC 7914): N. Less is refused, on writing and on reading. */
export const leastScryptCost = 2 ** 15
/** A file that asks for more is refused: it would take gigabytes to open. */
const mostScryptCost = 2 ** 20
/** 128 MiB and about half a second on a small computer. */
export const usualScryptCost = 2 ** 17

const banner = 'lockwright PRIVATE KEY, version 1'
const warning = 'Keep this file secret. Whoever has it and its passphrase signs as its owner.'

/** Text of a key file: announces itself, names its owner, and holds the key encrypted under the passphrase. */
export function formatKeyFile(owner: string, key: KeyObject, passphrase: string, cost = usualScryptCost): string {
  if (cost < leastScryptCost || !isPowerOfTwo(cost)) throw new RangeError('scrypt cost too low')
  const salt = randomBytes(16)
  const nonce = randomBytes(12)
  const head = [
    banner,
    warning,
    `owner: ${owner}`,
    `public: ${publicBytesOf(key)}`,
    `scrypt: N=${cost} r=8 p=1 salt=${salt.toString('base64url')}`,
    `aes-256-gcm: nonce=${nonce.toString('base64url')}`,
    ''
  ].join('\n')
  const cipher = createCipheriv('aes-256-gcm', stretch(passphrase, salt, cost), nonce)
  cipher.setAAD(Buffer.from(head))
  const seed = Buffer.from(key.export({ format: 'jwk' }).d ?? '', 'base64url')
  const sealed = Buffer.concat([cipher.update(seed), cipher.final(), cipher.getAuthTag()])
  return `${head}sealed: ${sealed.toString('base64url')}\n`
}

const line = new RegExp(
  `^(${banner}\\n${warning.replaceAll('.', '\\.')}\\nowner: (?<owner>[^\\n]+)\\npublic: (?<public>[A-Za-z0-9_-]{43})\\n` +
    'scrypt: N=(?<cost>[1-9][0-9]{0,9}) r=8 p=1 salt=(?<salt>[A-Za-z0-9_-]{22})\\n' +
    'aes-256-gcm: nonce=(?<nonce>[A-Za-z0-9_-]{16})\\n)sealed: (?<sealed>[A-Za-z0-9_-]{64})\\n$'
)

/** The public half that a key file names, base64url; null where it is no key file. Nothing vouches for it. */
export function publicHalfOf(text: string): string | null {
  return line.exec(text)?.groups?.['public'] ?? null
}

/** The private key of a key file. A wrong passphrase, another owner and a damaged file are faults. */
export function openKeyFile(text: string, file: string, owner: string, passphrase: string): RecordsResult<KeyObject> {
  const match = line.exec(text)
  const cost = Number(match?.groups?.['cost'])
  if (match === null || cost < leastScryptCost || cost > mostScryptCost || !isPowerOfTwo(cost)) {
    return bad({
      id: 'key-file-damaged',
      file,
      what: 'The key file is not in the form that `people` writes.',
      danger: 'Nobody can sign with it.',
      mend: 'Put back a copy of the file. Where there is none the key is lost: `people lost` ends it and makes a new one.'
    })
  }
  const groups = match.groups ?? {}
  if (groups['owner'] !== owner) {
    return bad({
      id: 'key-of-another',
      file,
      what: `The key file is that of \`${groups['owner']}\`, not of \`${owner}\`.`,
      danger: 'A signature would bear the wrong name.',
      mend: 'Put each key file back under its own name.'
    })
  }
  const seed = unseal(match[1] ?? '', groups, cost, passphrase)
  if (seed === null) return wrongPassphrase(file, owner)
  return good(privateKeyFrom(seed))
}

// RFC 8410, section 7: a PKCS #8 private key is this prefix and the 32 bytes of the seed.
const pkcs8Prefix = Buffer.from('302e020100300506032b657004220420', 'hex')

/** Ed25519 private key from its 32-byte seed. */
export function privateKeyFrom(seed: Uint8Array): KeyObject {
  return createPrivateKey({ key: Buffer.concat([pkcs8Prefix, seed]), format: 'der', type: 'pkcs8' })
}

function wrongPassphrase(file: string, owner: string): RecordsResult<never> {
  return bad({
    id: 'wrong-passphrase',
    file,
    what: `The passphrase does not open the key of \`${owner.replace(/^person-/, '')}\`, or the file was altered.`,
    danger: 'Nothing was signed.',
    mend:
      owner === 'site-root'
        ? 'Type the passphrase again. A forgotten one cannot be recovered: see `people root-lost --help`.'
        : 'Type the passphrase again. A forgotten one cannot be recovered: `people lost` ends the key and makes a new one.'
  })
}

function unseal(head: string, groups: Record<string, string>, cost: number, passphrase: string): Buffer | null {
  const [salt, nonce, sealed] = ['salt', 'nonce', 'sealed'].map((name) => fromBase64url(groups[name] ?? ''))
  if (!salt || !nonce || !sealed) return null
  try {
    const decipher = createDecipheriv('aes-256-gcm', stretch(passphrase, salt, cost), nonce)
    decipher.setAAD(Buffer.from(head))
    decipher.setAuthTag(sealed.subarray(-16))
    return Buffer.concat([decipher.update(sealed.subarray(0, -16)), decipher.final()])
  } catch {
    // final() throws where the tag does not fit: wrong passphrase, or the file was altered.
    return null
  }
}

// The same passphrase gives the same bytes on every keyboard: NFC (RFC 8265 asks the same of passwords).
function stretch(passphrase: string, salt: Uint8Array, cost: number): Buffer {
  return scryptSync(passphrase.normalize('NFC'), salt, 32, { N: cost, r: 8, p: 1, maxmem: 256 * cost * 8 })
}

const isPowerOfTwo = (value: number): boolean => Number.isInteger(Math.log2(value))
