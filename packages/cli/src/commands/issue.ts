import { dirname } from 'node:path'
import { compare, formatComparison, loosens } from '@lockwright/proof'
import {
  type IssuedPicture,
  issue,
  lastIssued,
  namedPictures,
  openSite,
  type Site,
  systemClock
} from '@lockwright/records'
import { type ExitCode, exit } from '../exit.js'
import { fromRecords } from '../from-records.js'
import { pictureNotes } from '../picture-notes.js'
import { provedMachine } from '../proved-machine.js'
import { readInput } from '../read-input.js'
import { sayError, sayLine, sayNote } from '../say.js'
import { unlockSigner } from '../unlock-signer.js'

export interface IssueFlags {
  readonly site: string
  readonly by: string
  readonly reason?: string
  readonly passphraseFile?: string
}

export async function issueFile(file: string, flags: IssueFlags): Promise<ExitCode> {
  const site = fromRecords(openSite(flags.site))
  const proved = provedMachine(file)
  if (proved === null) return exit.findings
  const reason = flags.reason?.trim() ?? ''
  if (reason === '' && asksLess(site, proved)) return exit.findings
  const pictures = await picturesOf(file, proved)
  const signer = await unlockSigner(site, flags.by, flags.passphraseFile)
  const issued = fromRecords(issue({ site, machine: proved.machine, signer, clock: systemClock, reason, pictures }))
  sayNote(`${issued.procedure} revision ${issued.revision} is issued in ${flags.site} by ${issued.name}, ${issued.at}`)
  sayLine(issued.machine)
  return exit.well
}

/** The pictures that the procedure names, as they are now; why one cannot be printed is said, and then it is not issued. */
async function picturesOf(
  file: string,
  { machine }: NonNullable<ReturnType<typeof provedMachine>>
): Promise<readonly IssuedPicture[]> {
  const named = namedPictures(machine)
  if (named.size === 0) return []
  const { folderImages } = await import('@lockwright/runner-paper')
  const images = folderImages(dirname(file))
  const pictures = images.seen(named)
  for (const note of pictureNotes(file, readInput(file), images.faults())) sayError(note)
  return pictures
}

/** Whether it asks less than what is issued now; then what is loosened was shown, before any passphrase is asked for. */
function asksLess(site: Site, { machine }: NonNullable<ReturnType<typeof provedMachine>>): boolean {
  const before = lastIssued(site, machine.procedure)
  if (before === null) return false
  const comparison = compare(before.machine, machine)
  if (!loosens(comparison)) return false
  sayNote(formatComparison(comparison))
  sayError(
    'it asks less than the revision that is issued now: give --reason with why it may, to be kept in the record.'
  )
  return true
}
