import { digestOf } from '@lockwright/machine'
import type { ProvedMachine } from '@lockwright/proof'
import { issuedMachine, openSite, systemClock } from '@lockwright/records'
import type { IssueState, Paper } from '@lockwright/runner-paper'
import { type ExitCode, exit } from '../exit.js'
import { fromRecords } from '../from-records.js'
import { provedMachine } from '../proved-machine.js'
import { CannotRun } from '../read-input.js'
import { sayNote } from '../say.js'
import { writeOutput } from '../write-output.js'

export interface PrintFlags {
  readonly out: string
  readonly paper: Paper
  readonly for?: readonly string[]
  readonly site?: string
}

export async function print(file: string, flags: PrintFlags): Promise<ExitCode> {
  const proved = provedMachine(file)
  if (proved === null) return exit.findings
  const { machine, report } = proved
  const { chooseGenerations, printProcedure } = await import('@lockwright/runner-paper')
  const chosen = chooseGenerations(machine, flags.for ?? [])
  if (!chosen.ok) throw new CannotRun(chosen.faults.join('\n'))
  const issue = issueState(machine, flags.site)
  const pdf = await printProcedure(machine, {
    paper: flags.paper,
    ...(flags.for === undefined ? {} : { for: chosen.generations }),
    issue,
    digest: digestOf(machine),
    now: systemClock.now().at,
    report
  })
  writeOutput(flags.out, pdf)
  sayNote(`wrote ${flags.out}${issue.kind === 'draft' ? ', marked DRAFT on every page' : `, issued by ${issue.by}`}`)
  return exit.well
}

function issueState(machine: ProvedMachine, folder: string | undefined): IssueState {
  if (folder === undefined) return { kind: 'draft' }
  const issued = issuedMachine(fromRecords(openSite(folder)), digestOf(machine))
  if (issued.ok) return { kind: 'issued', by: issued.value.issue.name, at: issued.value.issue.at }
  for (const { what } of issued.faults) sayNote(what)
  return { kind: 'draft' }
}
