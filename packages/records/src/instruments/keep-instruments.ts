import type { KeyObject } from 'node:crypto'
import { existsSync, readFileSync, renameSync, rmSync } from 'node:fs'
import type { Clock } from '../clock.js'
import { whereDiskHolds } from '../disk/disk-trouble.js'
import { syncFolder, writeDurably } from '../durable-file.js'
import { publicBytesOf } from '../public-key.js'
import { bad, good, type RecordsResult } from '../result.js'
import { readRoster } from '../roster-file.js'
import { rootKeysOf } from '../roster-keys.js'
import { layout, type Site } from '../site.js'
import { lockForWriting } from '../writer-lock.js'
import type { Calibration, Instrument, Instruments } from './instrument.js'
import { formatInstruments, parseInstruments } from './instruments-text.js'

/**
 * The instruments of a site, their signature checked against the root key of the roster. Null: the site keeps no list,
 * and nothing is said of any instrument. `trusted`: as for `readRoster`.
 */
export function readInstruments(site: Site, trusted?: string): RecordsResult<Instruments | null> {
  const file = layout.instruments(site)
  if (!existsSync(file)) return good(null)
  const roster = readRoster(site, trusted)
  if (!roster.ok) return roster
  const read = parseInstruments(readFileSync(file), file, rootKeysOf(roster.value))
  if (read.ok || !existsSync(waiting(site))) return read
  // The root key was changed, and a crash came before the list was: the one that waits is signed by the new key.
  const next = parseInstruments(readFileSync(waiting(site)), file, [roster.value.root])
  return next.ok ? next : read
}

interface Change {
  readonly site: Site
  readonly id: string
  /** The site's private key, see `unlockKey(site, 'site-root', ...)`. */
  readonly root: KeyObject
  readonly clock: Clock
}

/** Adds an instrument; the first one makes the list. */
export function addInstrument(
  request: Omit<Change, 'id'> & { readonly instrument: Instrument }
): RecordsResult<Instruments> {
  const { instrument } = request
  return changeInstruments(request, (instruments) => {
    const same = instruments.find(({ id }) => id.toLowerCase() === instrument.id.toLowerCase())
    if (same !== undefined) return idTaken(request.site, same)
    return good([...instruments, instrument])
  })
}

/** Adds a calibration; those before stay, so that earlier records can still be judged. */
export function calibrateInstrument(
  request: Change & { readonly calibration: Calibration }
): RecordsResult<Instruments> {
  const { calibration } = request
  if (calibration.until < calibration.from) return endsBefore(calibration)
  return changeInstrument(request, (one) => ({
    ...one,
    calibrations: [...one.calibrations, calibration].toSorted((a, b) => (a.from < b.from ? -1 : 1))
  }))
}

/** From `from` (`YYYY-MM-DD`) on nothing that it shows counts; what it showed before stays good. An earlier day stays. */
export function withdrawInstrument(
  request: Change & { readonly from: string; readonly why: string }
): RecordsResult<Instruments> {
  const { from, why } = request
  return changeInstrument(request, (one) => ({
    ...one,
    withdrawn: one.withdrawn !== null && one.withdrawn.from <= from ? one.withdrawn : { from, why }
  }))
}

/** The list as it stands, signed anew by the root key that comes next, beside the one that is there. */
export function prepareInstruments(site: Site, next: KeyObject, at: string): RecordsResult<null> {
  const old = readInstruments(site)
  if (!old.ok) return old
  if (old.value !== null) {
    const { serial } = old.value
    writeDurably(waiting(site), formatInstruments({ ...old.value, serial: serial + 1, signedAt: at }, next))
  }
  return good(null)
}

/** Puts the list that waits in place if the root key that signed it is that of the roster by now; else takes it away. */
export function settleInstruments(site: Site): void {
  const next = waiting(site)
  if (!existsSync(next)) return
  const roster = readRoster(site)
  if (!roster.ok) return
  if (parseInstruments(readFileSync(next), next, [roster.value.root]).ok) renameSync(next, layout.instruments(site))
  else rmSync(next)
  syncFolder(site.folder)
}

const waiting = (site: Site): string => `${layout.instruments(site)}.next`

function changeInstrument(request: Change, change: (one: Instrument) => Instrument): RecordsResult<Instruments> {
  return changeInstruments(request, (instruments) =>
    instruments.some(({ id }) => id === request.id)
      ? good(instruments.map((one) => (one.id === request.id ? change(one) : one)))
      : noSuchInstrument(request.site, request.id)
  )
}

/** Changes the list, signs it anew and puts it in place; two changes at once do not lose one. */
function changeInstruments(
  asked: Omit<Change, 'id'>,
  change: (instruments: readonly Instrument[]) => RecordsResult<readonly Instrument[]>
): RecordsResult<Instruments> {
  const file = layout.instruments(asked.site)
  return whereDiskHolds(file, () => changeFile(file, asked, change))
}

function changeFile(
  file: string,
  { site, root, clock }: Omit<Change, 'id'>,
  change: (instruments: readonly Instrument[]) => RecordsResult<readonly Instrument[]>
): RecordsResult<Instruments> {
  const locked = lockForWriting(file)
  if (!locked.ok) {
    return bad({
      id: 'in-use',
      file,
      what: `Process ${locked.pid} on ${locked.host} is changing the list of instruments right now.`,
      danger: 'One of the two changes would be lost.',
      mend: `Try again in a moment. If no such process runs there any more, remove \`${locked.file}\`.`
    })
  }
  try {
    const roster = readRoster(site)
    if (!roster.ok) return roster
    if (publicBytesOf(root) !== roster.value.root) return notTheRoot(file)
    settleInstruments(site)
    const old = readInstruments(site)
    if (!old.ok) return old
    const changed = change(old.value?.instruments ?? [])
    if (!changed.ok) return changed
    const next: Instruments = {
      site: roster.value.site,
      serial: (old.value?.serial ?? 0) + 1,
      signedAt: clock.now().at,
      instruments: changed.value
    }
    const text = formatInstruments(next, root)
    const read = parseInstruments(Buffer.from(text), file, [roster.value.root])
    if (!read.ok) return unreadable(file, read.faults[0].what)
    writeDurably(file, text)
    return read
  } finally {
    locked.release()
  }
}

function idTaken(site: Site, { id, name }: Instrument): RecordsResult<never> {
  return bad({
    id: 'id-taken',
    file: layout.instruments(site),
    what: `The site has an instrument with the id \`${id}\` already: ${name}.`,
    danger: 'Readings of two instruments could not be told apart.',
    mend: 'Give the number that stands on this one alone.'
  })
}

function noSuchInstrument(site: Site, id: string): RecordsResult<never> {
  return bad({
    id: 'no-such-instrument',
    file: layout.instruments(site),
    what: `No instrument of this site has the id \`${id}\`.`,
    danger: 'The change would be for another instrument, or for none.',
    mend: 'Look the id up with `instruments list`, or enter it with `instruments add`.'
  })
}

function endsBefore({ from, until }: Calibration): RecordsResult<never> {
  return bad({
    id: 'calibration-ends-first',
    file: '',
    what: `A calibration from ${from} until ${until} ends before it begins.`,
    danger: 'The instrument would count as out of calibration on every day.',
    mend: 'Give the day of the calibration and the last day on which it holds.'
  })
}

function unreadable(file: string, why: string): RecordsResult<never> {
  return bad({
    id: 'change-refused',
    file,
    what: `The list of instruments was left as it is. With this change it could not be read: ${why}`,
    danger: 'Without a readable list no instrument can be told to be in calibration.',
    mend: 'Give days as 2026-03-02 and values with their unit, such as 1000 V.'
  })
}

function notTheRoot(file: string): RecordsResult<never> {
  return bad({
    id: 'not-the-root-key',
    file,
    what: 'The key is not the root key of this site.',
    danger: 'Every reader would refuse the list of instruments.',
    mend: 'Unlock the key `site-root` of this site folder.'
  })
}
