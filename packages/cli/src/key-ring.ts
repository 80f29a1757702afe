import { keyOf, personOf, readRoster, type Site, unlockKey } from '@lockwright/records'
import type { KeyRing } from '@lockwright/runner-terminal'

/** So often a wrong passphrase may be typed for one person before the command has to be begun again. */
const tries = 5

/** The keys of a site, each opened by its owner's passphrase; null where there is no roster to sign for. */
export function keyRing(site: Site, now: () => string): KeyRing | null {
  if (!readRoster(site).ok) return null
  const wrong = new Map<string, number>()
  return {
    has: (id) => {
      const roster = readRoster(site)
      const person = roster.ok ? personOf(roster.value, id) : null
      return person !== null && keyOf(person, now()) !== null
    },
    open: (person, passphrase) => {
      const before = wrong.get(person) ?? 0
      if (before >= tries) return { ok: false, why: tooOften(person), mend: leaveAndReturn, final: true }
      const key = unlockKey(site, person, passphrase)
      if (key.ok) return { ok: true, signer: { person, key: key.value } }
      const [{ id, what, mend }] = key.faults
      if (id !== 'wrong-passphrase') return { ok: false, why: what, mend, final: true }
      wrong.set(person, before + 1)
      return { ok: false, why: what, mend }
    }
  }
}

function tooOften(person: string): string {
  return `A passphrase that does not fit was typed ${tries} times for \`${person}\`; no more are tried here.`
}

const leaveAndReturn =
  'Look up the passphrase, leave the run and take it up again: it stands where it stood. A forgotten one cannot be ' +
  'recovered: `people lost` ends the key and makes a new one.'
