import { sha256Hex } from '../digest.js'
import { parseInstruments } from '../instruments/instruments-text.js'
import { good, type RecordsFault, type RecordsResult } from '../result.js'
import { parseRoster } from '../roster.js'
import { rootKeysOf } from '../roster-keys.js'
import type { SignedName, Superseded } from './store.js'

/** What a store has of the signed documents. */
export interface SignedStanding {
  /** The roster that holds; null: none yet. */
  readonly roster: Uint8Array | null
  /** The document of that name that holds; null: none yet. */
  readonly current: Uint8Array | null
}

export type SignedJudged = { readonly kind: 'take'; readonly serial: number } | Exclude<Superseded, { kind: 'kept' }>

/** Whether a signed document takes the place of the one that stands; the one place where that is decided. */
export function judgeSigned(name: SignedName, bytes: Uint8Array, standing: SignedStanding): SignedJudged {
  const read = name === 'people.yaml' ? rostersIn(bytes, standing) : instrumentsIn(bytes, standing)
  if (!read.ok) return { kind: 'refused', fault: read.faults[0] }
  const { offered, here } = read.value
  if (here === null || standing.current === null || offered > here) return { kind: 'take', serial: offered }
  if (offered < here) return older(name, here, offered)
  const hashes = { here: sha256Hex(standing.current), offered: sha256Hex(bytes) }
  if (hashes.here === hashes.offered) return { kind: 'same', serial: here }
  return { kind: 'conflict', ...hashes, fault: conflictFault(name, here, hashes) }
}

/** Serial numbers of what is offered and of what holds here, null: nothing does; of sound signatures alone. */
type Serials = RecordsResult<{ readonly offered: number; readonly here: number | null }>

/** Of one root key, or of one that handed over to the other in good order: whichever of the two is the later. */
function rostersIn(bytes: Uint8Array, { current }: SignedStanding): Serials {
  const here = current === null ? null : parseRoster(current, 'people.yaml')
  if (here !== null && !here.ok) return here
  const offered = parseRoster(bytes, 'people.yaml', here?.value.root)
  if (offered.ok) return good({ offered: offered.value.serial, here: here?.value.serial ?? null })
  const before = parseRoster(bytes, 'people.yaml')
  if (current === null || here === null || !before.ok) return offered
  const follows = parseRoster(current, 'people.yaml', before.value.root)
  return follows.ok ? good({ offered: before.value.serial, here: here.value.serial }) : offered
}

function instrumentsIn(bytes: Uint8Array, { roster, current }: SignedStanding): Serials {
  const name = 'instruments.yaml'
  if (roster === null) return { ok: false, faults: [noRoster(name)] }
  const held = parseRoster(roster, 'people.yaml')
  if (!held.ok) return held
  const roots = rootKeysOf(held.value)
  const offered = parseInstruments(bytes, name, roots)
  if (!offered.ok) return offered
  const here = current === null ? null : parseInstruments(current, name, roots)
  if (here !== null && !here.ok) return here
  return good({ offered: offered.value.serial, here: here?.value.serial ?? null })
}

function older(name: SignedName, here: number, offered: number): SignedJudged {
  const fault = {
    id: 'older-serial',
    file: name,
    line: null,
    what: `${name} number ${offered} was offered, and number ${here} holds here.`,
    danger: 'Keys that were revoked and qualifications that were taken away since would hold again.',
    mend: `Nothing was replaced. Take number ${here} over to where the older one still lies.`
  }
  return { kind: 'older', here, offered, fault }
}

function conflictFault(
  name: SignedName,
  serial: number,
  hashes: { readonly here: string; readonly offered: string }
): RecordsFault {
  return {
    id: 'same-serial',
    file: name,
    line: null,
    what: `Two different ${name} bear the number ${serial}: here ${hashes.here}, offered ${hashes.offered} (SHA-256).`,
    danger:
      'It was changed and signed in two places: who may do what, or which tester is good, depends on where one looks.',
    mend: 'Nothing was replaced. Have the holder of the root key put both changes into one, with a higher number.'
  }
}

function noRoster(name: SignedName): RecordsFault {
  return {
    id: 'no-roster',
    file: name,
    line: null,
    what: `There is no roster here yet, so the signature of ${name} cannot be checked.`,
    danger: 'Anyone could have signed it.',
    mend: 'Bring in people.yaml first.'
  }
}
