import { compare, formatComparison, loosens } from '@lockwright/proof'
import { issue, lastIssued, openSite, type Site, systemClock } from '@lockwright/records'
import { type ExitCode, exit } from '../exit.js'
import { fromRecords } from '../from-records.js'
import { provedMachine } from '../proved-machine.js'
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
  const signer = await unlockSigner(site, flags.by, flags.passphraseFile)
  const issued = fromRecords(issue({ site, machine: proved.machine, signer, clock: systemClock, reason }))
  sayNote(`${issued.procedure} revision ${issued.revision} is issued in ${flags.site} by ${issued.name}, ${issued.at}`)
  sayLine(issued.machine)
  return exit.well
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
