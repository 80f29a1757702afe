import type { PersonId } from '@lockwright/machine'
import { isIssued, openSite, startRun, systemClock } from '@lockwright/records'
import { runAnswers, scriptedClock } from '@lockwright/runner-terminal'
import { answersFrom } from '../answers-from.js'
import { type ExitCode, exit } from '../exit.js'
import { fromRecords } from '../from-records.js'
import { provedMachine } from '../proved-machine.js'
import { CannotRun } from '../read-input.js'
import { sayNote } from '../say.js'
import { shownPath } from '../shown-path.js'
import { tellOutcome } from '../tell-outcome.js'
import { unlockSigner } from '../unlock-signer.js'

export interface EnterFlags {
  readonly site: string
  readonly by: string
  readonly workedBy?: string
  readonly passphraseFile?: string
}

export async function enter(file: string, answersFile: string, flags: EnterFlags): Promise<ExitCode> {
  const proved = provedMachine(file)
  if (proved === null) return exit.findings
  const { machine } = proved
  const site = fromRecords(openSite(flags.site))
  const answers = answersFrom(answersFile)
  if (answers.clock === null)
    throw new CannotRun(`${answersFile} has no \`clock:\`; a sheet says when each step was done.`)
  const by = (flags.workedBy ?? flags.by) as PersonId
  const mode = isIssued(site, machine) ? 'issued' : 'draft'
  if (mode === 'draft') sayNote('No coordinator has issued this procedure here: the run is marked DRAFT for good.')
  const onPaper = { enteredBy: flags.by as PersonId, at: answers.clock.start }
  const signer = mode === 'issued' ? await unlockSigner(site, flags.by, flags.passphraseFile) : null
  const run = fromRecords(startRun({ site, machine, mode, by, clock: systemClock, onPaper }))
  try {
    const clock = scriptedClock(answers.clock.start)
    const outcome = await runAnswers(run, answers, {
      person: by,
      // The ink on the sheet was the signature of whoever signed there.
      keys: null,
      takenUp: false,
      clock: { kind: 'scripted', clock },
      onPaper: true,
      ...(signer === null ? {} : { copiedBy: signer }),
      passphrase: () => ({ ok: false, why: 'Nobody signs again for what a sheet says.' })
    })
    const ended = tellOutcome(outcome)
    sayNote(`The journal is ${shownPath(run.file)}; \`lockwright audit\` of the site checks it.`)
    return ended === 'finished' || ended === 'stopped' ? exit.well : exit.findings
  } finally {
    run.close()
  }
}
