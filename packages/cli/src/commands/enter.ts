import { digestOf, type PersonId } from '@lockwright/machine'
import type { ProvedMachine } from '@lockwright/proof'
import {
  isIssued,
  listRuns,
  openSite,
  type PrintedSheet,
  type Run,
  type RunMode,
  type Site,
  startRun,
  systemClock
} from '@lockwright/records'
import type { Generations } from '@lockwright/runner-paper'
import { type Answers, runAnswers, scriptedClock } from '@lockwright/runner-terminal'
import { answersOfSheet } from '../answers-from-sheet.js'
import { type ExitCode, exit } from '../exit.js'
import { fromRecords } from '../from-records.js'
import { keepAttachment } from '../keep-attachment.js'
import { goOnWithPaper } from '../open-run.js'
import { provedMachine } from '../proved-machine.js'
import { isFilledForm, readFilledForm } from '../read-filled-form.js'
import { CannotRun } from '../read-input.js'
import { sayNote } from '../say.js'
import { sheetToEnter } from '../sheet-to-enter.js'
import { shownPath } from '../shown-path.js'
import { tellJudged } from '../tell-judged.js'
import { tellOutcome } from '../tell-outcome.js'
import { unlockSigner } from '../unlock-signer.js'
import { offeredBy } from './step-session.js'

export interface EnterFlags {
  readonly site: string
  readonly by: string
  readonly workedBy?: string
  readonly run?: string
  readonly sheet?: string
  readonly scan?: string
  readonly date?: string
  readonly timeZone?: string
  readonly initials?: readonly string[]
  readonly passphraseFile?: string
}

export async function enter(file: string, answersFile: string, flags: EnterFlags): Promise<ExitCode> {
  const proved = provedMachine(file)
  if (proved === null) return exit.findings
  const { machine } = proved
  const site = fromRecords(openSite(flags.site))
  const form = isFilledForm(answersFile) ? await readFilledForm(answersFile) : null
  const sheet = sheetToEnter({ ...flags, site, machine, form })
  const generations = (sheet?.generations ?? form?.generations ?? {}) as Generations
  const { buildSheet } = await import('@lockwright/runner-paper')
  const numbers = new Map(buildSheet(machine, generations).steps.map(({ number, state }) => [state.id, number]))
  const begun = flags.run === undefined ? null : workerOf(site, flags.run)
  const worker = flags.workedBy ?? begun
  const answers = await answersOfSheet(answersFile, { ...flags, machine, site, form, generations, numbers, worker })
  if (answers.clock === null)
    throw new CannotRun(`${answersFile} has no \`clock:\`; a sheet says when each step was done.`)
  const now = () => systemClock.now().at
  if (Date.parse(answers.clock.start) > Date.parse(now())) throw new CannotRun(notBegun(answers.clock.start, now()))
  // A run that is gone on with is that of whoever worked when it was begun; whoever copies it hung no lock.
  const by = (begun ?? flags.workedBy ?? firstWorker(answers) ?? flags.by) as PersonId
  const mode = isIssued(site, machine) ? 'issued' : 'draft'
  if (mode === 'draft') sayNote('No coordinator has issued this procedure here: the run is marked DRAFT for good.')
  const scan = flags.scan === undefined ? null : kept(site, flags.scan)
  const onPaper = {
    enteredBy: flags.by as PersonId,
    at: answers.clock.start,
    ...(sheet === null ? {} : { sheet: sheet.serial })
  }
  const signer = mode === 'issued' ? await unlockSigner(site, flags.by, flags.passphraseFile) : null
  const goesOn = flags.run !== undefined
  if (!goesOn) warnOfSame(site, machine, mode, answers.clock.start, sheet)
  const run =
    flags.run === undefined
      ? fromRecords(startRun({ site, machine, mode, by, clock: systemClock, onPaper }))
      : goOnWithPaper({ site, machine, mode, run: flags.run, enteredBy: onPaper.enteredBy })
  if (scan !== null) attachScan(run, scan, goesOn ? run.snapshot.at : onPaper.at, onPaper.enteredBy)
  if (goesOn)
    sayNote(`going on with run ${run.id}: what it holds already is compared with the sheet, and not recorded again`)
  try {
    const clock = scriptedClock(answers.clock.start)
    const outcome = await runAnswers(run, answers, {
      person: by,
      // The ink on the sheet was the signature of whoever signed there.
      keys: null,
      takenUp: false,
      clock: { kind: 'scripted', clock },
      onPaper: true,
      instruments: offeredBy(site, run, () => clock.now().at),
      numbers,
      notAfter: now,
      goesOn,
      ...(signer === null ? {} : { copiedBy: signer }),
      passphrase: () => ({ ok: false, why: 'Nobody signs again for what a sheet says.' })
    })
    for (const remark of outcome.remarks) sayNote(remark)
    const ended = tellOutcome(outcome)
    if (ended === null || ended === 'input-ended') {
      const how = ended === null ? 'Correct the sheet' : 'Once more is on the sheet, complete the file'
      const which = sheet === null ? '' : `Sheet ${sheet.serial} is partly entered. `
      sayNote(`${which}Run ${run.id} stays open. ${how} and enter the whole of it again with \`--run ${run.id}\`.`)
    }
    await tellJudged(site, run)
    sayNote(`The journal is ${shownPath(run.file)}; \`lockwright audit\` of the site checks it.`)
    return ended === null ? exit.findings : exit.well
  } finally {
    run.close()
  }
}

/** Who worked when the run was begun; null: there is no such run, which is told where it is opened. */
function workerOf(site: Site, run: string): string | null {
  return listRuns(site).runs.find((one) => one.run === run)?.openedBy ?? null
}

function firstWorker({ answers: [first] }: Answers): string | null {
  return first?.kind === 'step' ? first.by : null
}

function notBegun(start: string, now: string): string {
  return `by the sheet the work began at ${start}, and it is ${now} now: nothing is recorded for a time that is still to come. See the day, the times and the time zone of the sheet.`
}

function kept(site: Site, path: string): { readonly name: string; readonly sha256: string } {
  const scan = keepAttachment(site, path)
  if (scan.ok) return scan
  throw new CannotRun(`${scan.why} ${scan.mend}`)
}

/** The page as it came back, beside what was read off it. */
function attachScan(
  run: Run,
  { name, sha256 }: { readonly name: string; readonly sha256: string },
  at: string,
  by: PersonId
): void {
  const taken = run.take({ kind: 'attachment', name, sha256, by, at })
  if (taken.ok) {
    sayNote(`attached ${name} as it was scanned`)
    return
  }
  run.close()
  throw new CannotRun(taken.refusals.map(({ why, mend }) => `${why} ${mend}`).join(' '))
}

/** Two runs of one sheet would tell of work that was done once as if it had been done twice. */
function warnOfSame(
  site: Site,
  machine: ProvedMachine,
  mode: RunMode,
  start: string,
  sheet: PrintedSheet | null
): void {
  const digest = digestOf(machine)
  // Two serial numbers are two sheets, and one of them is not entered twice.
  const alike = listRuns(site).runs.filter((one) => one.onPaper && (sheet === null || one.sheet === null))
  const same = alike.filter(
    (one) => one.machine === digest && one.mode === mode && Date.parse(one.openedAt) === Date.parse(start)
  )
  for (const { run, status } of same) {
    const open = status === 'running' || status === 'paused'
    sayNote(
      `A sheet that began at the same time was entered before: run ${run}, ${open ? 'still open' : status}.` +
        (open ? ` To go on with it, give \`--run ${run}\`.` : ' If it is the same sheet, it is now on record twice.')
    )
  }
}
