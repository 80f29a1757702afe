import { personOf, readRoster, type Site, unlockKey } from '@lockwright/records'
import type { KeyRing } from '@lockwright/runner-terminal'

/** The keys of a site, each opened by its owner's passphrase; null where there is no roster to sign for. */
export function keyRing(site: Site, now: () => string): KeyRing | null {
  if (!readRoster(site).ok) return null
  return {
    has: (id) => {
      const roster = readRoster(site)
      const person = roster.ok ? personOf(roster.value, id) : null
      if (person === null || person.key === null) return false
      return person.revokedAt === null || Date.parse(now()) < Date.parse(person.revokedAt)
    },
    open: (person, passphrase) => {
      const key = unlockKey(site, person, passphrase)
      if (key.ok) return { ok: true, signer: { person, key: key.value } }
      const [{ what, mend }] = key.faults
      return { ok: false, why: what, mend }
    }
  }
}
