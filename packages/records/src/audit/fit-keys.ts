import type { Entry } from '../entry.js'
import { readDetached } from '../jws.js'
import type { Person, PersonKey, Roster } from '../roster.js'
import { personOf } from '../roster-file.js'
import { keyDoubt, keyOf, tellEnd } from '../roster-keys.js'
import type { Evidence } from './evidence.js'
import { count, type Found } from './verdict.js'

const forged = 'Whoever had got hold of the key may have signed.'

/** Whether each signature was made with a key that its owner had then, and what theft leaves of those before it. */
export function keysFound(evidence: Evidence): readonly Found[] {
  const { roster } = evidence
  if (roster === null) return []
  return [
    ...evidence.entries.flatMap((entry) => signatureFound(entry, roster, evidence.provenBy ?? null)),
    ...issueFound(evidence, roster)
  ]
}

function signatureFound(entry: Entry, roster: Roster, provenBy: string | null): readonly Found[] {
  const { signature, jws } = entry
  const person = signature === undefined ? null : personOf(roster, signature.by)
  const claim = jws === undefined ? null : readDetached('lockwright-entry', '', jws)
  if (signature === undefined || person === null || claim?.ok !== true) return []
  const doubt = keyDoubt(person, claim.kid, signature.at)
  if (doubt === null) {
    const stolen = stolenLater(person, claim.kid, provenBy)
    return stolen === null ? [] : [maybeBackdated(entry.seq, person, stolen)]
  }
  switch (doubt.kind) {
    // The signature does not hold then, which is for `whole` to tell.
    case 'not-theirs':
      return []
    case 'not-yet':
      return [notYet(entry.seq, person)]
    case 'ended':
      return [signedAfter(entry.seq, person, doubt.key)]
  }
}

/** What a checkpoint that the auditor had before a theft shows of signatures that were made with the stolen key. */
export function provenBeforeTheft({ entries, roster, provenBy = null }: Evidence): readonly string[] {
  if (roster === null || provenBy === null) return []
  const proven = entries.filter(
    (entry) =>
      signatureFound(entry, roster, null).some(({ id }) => id === 'key-stolen-later') &&
      signatureFound(entry, roster, provenBy).length === 0
  )
  if (proven.length === 0) return []
  return [
    `${count(proven.length, 'signature')} made with a key that was stolen later: the run stood as it stands now by ${provenBy}, before the theft, for the kept checkpoint covers it and the auditor had that by then`
  ]
}

/** The key, if it was stolen after it signed this, and nothing from outside shows that it stood before the theft. */
function stolenLater(person: Person, kid: string, provenBy: string | null): PersonKey | null {
  const doubt = keyDoubt(person, kid, '9999-12-31T00:00:00Z')
  if (doubt?.kind !== 'ended' || doubt.key.because !== 'stolen') return null
  const since = Date.parse(doubt.key.until ?? '')
  return provenBy !== null && Date.parse(provenBy) < since ? null : doubt.key
}

function issueFound({ issue }: Evidence, roster: Roster): readonly Found[] {
  const person = issue === null ? null : personOf(roster, issue.by)
  const key = issue === null || person === null ? null : keyOf(person, issue.at)
  if (issue === null || person === null || key?.because !== 'stolen') return []
  return [
    {
      id: 'issue-key-stolen',
      weight: 'doubt',
      seq: 1,
      what: `The machine was issued under the key of \`${person.id}\`, which ${tellEnd(key)}; the issue is dated ${issue.at}, before that.`,
      danger: 'Whoever has the key can date an issue back, and release a procedure with a gate left out.',
      mend: `Have ${person.name} look at the machine, and have it issued anew.`
    }
  ]
}

/** The same words for every way in which a key can end; the id says whether it was stolen. */
function signedAfter(seq: number, { id, name }: Person, key: PersonKey): Found {
  const ids = {
    revoked: 'key-revoked',
    rotated: 'key-ended',
    lost: 'key-ended',
    left: 'key-ended',
    stolen: 'key-stolen'
  }
  return {
    id: ids[key.because ?? 'revoked'],
    weight: 'fault',
    seq,
    what:
      key.because === 'revoked'
        ? `The key of \`${id}\` was revoked from ${key.until} on, before this was signed.`
        : `The key of \`${id}\` ${tellEnd(key)}; this was signed with it after that.`,
    danger: forged,
    mend: `Ask ${name} whether they signed this.`
  }
}

function maybeBackdated(seq: number, { id, name }: Person, { until }: PersonKey): Found {
  return {
    id: 'key-stolen-later',
    weight: 'doubt',
    seq,
    what: `The key of \`${id}\` may be in the hands of someone else since ${until}. This is dated before that, but whoever has the key can date a signature back.`,
    danger: 'A sign-off that was never given could have been put in afterwards.',
    mend: `Ask ${name} whether they signed this. A checkpoint of the site log that someone kept from before ${until} proves it for every run that it covers.`
  }
}

function notYet(seq: number, { id }: Person): Found {
  return {
    id: 'key-not-yet',
    weight: 'fault',
    seq,
    what: `The key of \`${id}\` that this was signed with did not sign yet at the time that the signature bears.`,
    danger: 'The signature may have been dated back.',
    mend: 'Find out when it was made, and why the clock said otherwise.'
  }
}
