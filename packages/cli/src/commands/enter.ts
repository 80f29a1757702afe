import { digestOf, type PersonId } from '@lockwright/machine'
import type { ProvedMachine } from '@lockwright/proof'
import { isIssued, listRuns, openSite, type RunMode, type Site, startRun, systemClock } from '@lockwright/records'
import { runAnswers, scriptedClock } from '@lockwright/runner-terminal'
import { answersFrom } from '../answers-from.js'
import { type ExitCode, exit } from '../exit.js'
import { fromRecords } from '../from-records.js'
import { goOnWithPaper } from '../open-run.js'
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
  readonly run?: string
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
  const goesOn = flags.run !== undefined
  if (!goesOn) warnOfSame(site, machine, mode, answers.clock.start)
  const run =
    flags.run === undefined
      ? fromRecords(startRun({ site, machine, mode, by, clock: systemClock, onPaper }))
      : goOnWithPaper({ site, machine, mode, run: flags.run, enteredBy: onPaper.enteredBy })
  if (goesOn) sayNote(`going on with run ${run.id}: what it holds already is passed over, not compared`)
  try {
    const clock = scriptedClock(answers.clock.start)
    const outcome = await runAnswers(run, answers, {
      person: by,
      // The ink on the sheet was the signature of whoever signed there.
      keys: null,
      takenUp: false,
      clock: { kind: 'scripted', clock },
      onPaper: true,
      goesOn,
      ...(signer === null ? {} : { copiedBy: signer }),
      passphrase: () => ({ ok: false, why: 'Nobody signs again for what a sheet says.' })
    })
    for (const remark of outcome.remarks) sayNote(remark)
    const ended = tellOutcome(outcome)
    if (ended === null || ended === 'input-ended') {
      const how = ended === null ? 'Correct the sheet' : 'Once more is on the sheet, complete the file'
      sayNote(`Run ${run.id} stays open. ${how} and enter the whole of it again with \`--run ${run.id}\`.`)
    }
    sayNote(`The journal is ${shownPath(run.file)}; \`lockwright audit\` of the site checks it.`)
    return ended === 'finished' || ended === 'stopped' ? exit.well : exit.findings
  } finally {
    run.close()
  }
}

/** Two runs of one sheet would tell of work that was done once as if it had been done twice. */
function warnOfSame(site: Site, machine: ProvedMachine, mode: RunMode, start: string): void {
  const digest = digestOf(machine)
  const same = listRuns(site).runs.filter(
    (one) =>
      one.onPaper && one.machine === digest && one.mode === mode && Date.parse(one.openedAt) === Date.parse(start)
  )
  for (const { run, status } of same) {
    const open = status === 'running' || status === 'paused'
    sayNote(
      `A sheet that began at the same time was entered before: run ${run}, ${open ? 'still open' : status}.` +
        (open ? ` To go on with it, give \`--run ${run}\`.` : ' If it is the same sheet, it is now on record twice.')
    )
  }
}
