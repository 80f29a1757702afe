import { issue, openSite, systemClock } from '@lockwright/records'
import { type ExitCode, exit } from '../exit.js'
import { fromRecords } from '../from-records.js'
import { provedMachine } from '../proved-machine.js'
import { sayLine, sayNote } from '../say.js'
import { unlockSigner } from '../unlock-signer.js'

export interface IssueFlags {
  readonly site: string
  readonly by: string
  readonly passphraseFile?: string
}

export async function issueFile(file: string, flags: IssueFlags): Promise<ExitCode> {
  const site = fromRecords(openSite(flags.site))
  const proved = provedMachine(file)
  if (proved === null) return exit.findings
  const signer = await unlockSigner(site, flags.by, flags.passphraseFile)
  const issued = fromRecords(issue({ site, machine: proved.machine, signer, clock: systemClock }))
  sayNote(`${issued.procedure} revision ${issued.revision} is issued in ${flags.site} by ${issued.name}, ${issued.at}`)
  sayLine(issued.machine)
  return exit.well
}
