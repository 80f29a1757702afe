import { sha256Hex } from '../digest.js'
import { type SignedName, type Store, signedNames } from '../store/store.js'
import type { Grounds } from './grounds.js'
import type { KeptAudit, KeptSerial } from './kept.js'
import type { Found } from './verdict.js'

/** Roster and list of instruments as they are now; those of them that are there and sound. */
export type SignedNow = Readonly<Partial<Record<SignedName, KeptSerial>>>

export async function signedNow(store: Store, { roster, instruments }: Grounds): Promise<SignedNow> {
  const serials = {
    'people.yaml': roster.ok ? roster.value.serial : null,
    'instruments.yaml': instruments.ok ? (instruments.value?.serial ?? null) : null
  }
  const now: Partial<Record<SignedName, KeptSerial>> = {}
  for (const name of signedNames) {
    const serial = serials[name]
    const bytes = serial === null ? null : await store.signed(name)
    if (serial !== null && bytes !== null) now[name] = { serial, sha256: sha256Hex(bytes) }
  }
  return now
}

/** Whether one of them was put back to an older one, or taken away, since the auditor kept what held then. */
export function putBackFound({ signed: kept, at }: KeptAudit, now: SignedNow): readonly Found[] {
  return signedNames.flatMap((name): readonly Found[] => {
    const [before, here] = [kept[name], now[name]]
    if (before === undefined || (here !== undefined && here.serial > before.serial)) return []
    if (here !== undefined && here.serial === before.serial) {
      return here.sha256 === before.sha256
        ? []
        : [
            found(
              name,
              `has the number ${here.serial} that it had when the auditor kept it on ${at}, and says something else`
            )
          ]
    }
    // One that is there and unsound is told where it is read.
    const gone = name === 'instruments.yaml' && here === undefined
    if (here === undefined && !gone) return []
    return [
      found(
        name,
        here === undefined
          ? `had the number ${before.serial} when the auditor kept it on ${at}, and cannot be read now`
          : `has the number ${here.serial}; when the auditor kept it on ${at} it had ${before.serial} already`
      )
    ]
  })
}

function found(name: SignedName, what: string): Found {
  return {
    id: 'put-back',
    weight: 'fault',
    seq: null,
    file: name,
    what: `\`${name}\` ${what}.`,
    danger:
      'What was taken from someone since then, a key or a qualification, or an instrument withdrawn, counts again.',
    mend: 'Put the newest one back; a shared store and the computers of others may have it. Find out who put the older one there.'
  }
}
