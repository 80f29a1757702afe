import { generateKeyPairSync, type KeyObject } from 'node:crypto'
import type { Clock } from './clock.js'
import { prepareInstruments, settleInstruments } from './instruments/keep-instruments.js'
import { passphraseFault, prepareKey, settleKey, siteRoot } from './key-store.js'
import { publicBytesOf } from './public-key.js'
import { bad, good, type RecordsResult } from './result.js'
import { signHandover } from './root-chain.js'
import type { FormerRoot, Roster } from './roster.js'
import { changeWholeRoster } from './roster-file.js'
import { layout, type Site } from './site.js'

interface NewRoot {
  readonly site: Site
  /** Of the new root key. */
  readonly passphrase: string
  readonly clock: Clock
  readonly cost?: number
}

/**
 * A new root key, which the old one hands over to. Whoever knows the old thumbprint can follow; the old key signs
 * nothing any more, and its file is gone.
 */
export function rotateRoot(request: NewRoot & { readonly root: KeyObject }): RecordsResult<Roster> {
  const { root } = request
  const { at } = request.clock.now()
  return changeRoot(request, root, (old, to) => {
    const handover = signHandover({ site: old.site, from: old.root, to, at }, root)
    return [...(old.formerRoots ?? []), { key: old.root, until: at, because: 'rotated', handover }]
  })
}

/**
 * A new root key where the old one is lost or stolen: it can hand nothing over, so everyone who knows its thumbprint
 * has to be told the new one by another way. `since`: for a stolen one, since when; else it ends now.
 */
export function replaceRoot(
  request: NewRoot & { readonly because: 'lost' | 'stolen'; readonly since?: string }
): RecordsResult<Roster> {
  const { at } = request.clock.now()
  const until = request.since ?? at
  if (Number.isNaN(Date.parse(until)) || Date.parse(until) > Date.parse(at)) return notYet(request.site)
  const { because } = request
  return changeRoot(request, null, (old) => {
    const before = old.formerRoots ?? []
    const ended: FormerRoot = { key: old.root, until, because, handover: null }
    return [...(because === 'stolen' ? before.map((root) => stolenSince(root, until)) : before), ended]
  })
}

/** A root key that was in force when the theft was: its handover may be the work of the thief. */
function stolenSince(root: FormerRoot, since: string): FormerRoot {
  return Date.parse(root.until) <= Date.parse(since)
    ? root
    : { key: root.key, until: since, because: 'stolen', handover: null }
}

function changeRoot(
  { site, passphrase, clock, cost }: NewRoot,
  root: KeyObject | null,
  end: (old: Roster, to: string) => readonly FormerRoot[]
): RecordsResult<Roster> {
  const fault = passphraseFault(passphrase, 'the new root key')
  if (fault !== null) return fault
  const { at } = clock.now()
  settleInstruments(site)
  const next = generateKeyPairSync('ed25519').privateKey
  const to = publicBytesOf(next)
  const changed = changeWholeRoster(site, { root, next }, at, (old) => {
    const prepared = prepareInstruments(site, next, at)
    if (!prepared.ok) return prepared
    prepareKey(site, siteRoot, next, passphrase, cost)
    return good({ ...old, root: to, formerRoots: end(old, to) })
  })
  settleKey(site, siteRoot)
  settleInstruments(site)
  return changed
}

function notYet(site: Site): RecordsResult<never> {
  return bad({
    id: 'theft-not-yet',
    file: layout.people(site),
    what: 'The time since when the root key is stolen is none, or lies in the future.',
    danger: 'What the thief signs until then would count.',
    mend: 'Give the last time at which it was surely still in safe hands, such as 2026-03-02T08:00:00Z.'
  })
}
