import { digestOf } from '@lockwright/machine'
import { systemClock } from '@lockwright/records'
import type { Hung, PlacardPaper, SheetLanguage } from '@lockwright/runner-paper'
import { type ExitCode, exit } from '../exit.js'
import { issueState } from '../issue-state.js'
import { provedMachine } from '../proved-machine.js'
import { CannotRun } from '../read-input.js'
import { sayNote } from '../say.js'
import { writeOutput } from '../write-output.js'

export interface HangFlags {
  readonly out: string
  readonly paper: PlacardPaper
  readonly for?: readonly string[]
  readonly site?: string
  readonly language?: SheetLanguage
}

/** Prints what hangs or sticks beside the machine, from a proved procedure alone. */
export async function hang(what: 'placard' | 'tags' | 'labels', file: string, flags: HangFlags): Promise<ExitCode> {
  const proved = provedMachine(file)
  if (proved === null) return exit.findings
  const { machine } = proved
  const { chooseGenerations, printLabels, printPlacard, printTags } = await import('@lockwright/runner-paper')
  const chosen = chooseGenerations(machine, flags.for ?? [])
  if (!chosen.ok) throw new CannotRun(chosen.faults.join('\n'))
  const issue = issueState(machine, flags.site)
  const options = {
    ...(flags.for === undefined ? {} : { for: chosen.generations }),
    ...(flags.language === undefined ? {} : { language: flags.language }),
    issue,
    digest: digestOf(machine),
    now: systemClock.now().at
  }
  const printed = await made(what, flags.paper)
  if (!printed.ok) throw new CannotRun(printed.faults.join('\n'))
  writeOutput(flags.out, printed.pdf)
  for (const remark of printed.remarks) sayNote(remark)
  sayNote(`wrote ${flags.out}${issue.kind === 'draft' ? ', marked DRAFT' : `, issued by ${issue.by}`}`)
  return exit.well

  function made(kind: typeof what, paper: PlacardPaper): Promise<Hung> {
    if (kind === 'placard') return printPlacard(machine, { ...options, paper })
    // Only the placard is also made as A3: the command offers it nowhere else.
    const size = paper === 'letter' ? 'letter' : 'a4'
    return kind === 'tags'
      ? printTags(machine, { ...options, paper: size })
      : printLabels(machine, { ...options, paper: size })
  }
}
