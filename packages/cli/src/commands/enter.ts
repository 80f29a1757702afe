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
  sheetForEntry,
  sheetsOf,
  startRun,
  systemClock
} from '@lockwright/records'
import { runAnswers, scriptedClock } from '@lockwright/runner-terminal'
import { answersOfSheet } from '../answers-from-sheet.js'
import { type ExitCode, exit } from '../exit.js'
import { fromRecords } from '../from-records.js'
import { keepAttachment } from '../keep-attachment.js'
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
  readonly sheet?: string
  readonly scan?: string
  readonly date?: string
  readonly initials?: readonly string[]
  readonly passphraseFile?: string
}

export async function enter(file: string, answersFile: string, flags: EnterFlags): Promise<ExitCode> {
  const proved = provedMachine(file)
  if (proved === null) return exit.findings
  const { machine } = proved
  const site = fromRecords(openSite(flags.site))
  const answers = await answersOfSheet(answersFile, { ...flags, machine, site })
  if (answers.clock === null)
    throw new CannotRun(`${answersFile} has no \`clock:\`; a sheet says when each step was done.`)
  const by = (flags.workedBy ?? flags.by) as PersonId
  const mode = isIssued(site, machine) ? 'issued' : 'draft'
  if (mode === 'draft') sayNote('No coordinator has issued this procedure here: the run is marked DRAFT for good.')
  const sheet = sheetToEnter(site, machine, flags)
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
      const which = sheet === null ? '' : `Sheet ${sheet.serial} is partly entered. `
      sayNote(`${which}Run ${run.id} stays open. ${how} and enter the whole of it again with \`--run ${run.id}\`.`)
    }
    sayNote(`The journal is ${shownPath(run.file)}; \`lockwright audit\` of the site checks it.`)
    return ended === 'finished' || ended === 'stopped' ? exit.well : exit.findings
  } finally {
    run.close()
  }
}

/** The sheet that is entered; null: it has no serial number, or none was given. */
function sheetToEnter(site: Site, machine: ProvedMachine, { run, sheet: typed }: EnterFlags): PrintedSheet | null {
  if (typed === undefined) {
    const out = sheetsOf(site).sheets.filter(
      ({ sheet, state }) => state.kind === 'out' && sheet.machine === digestOf(machine)
    )
    if (out.length > 0 && run === undefined)
      sayNote(
        `Sheets of this procedure are out (${out.map(({ sheet }) => sheet.serial).join(', ')}); without --sheet none of them counts as come back.`
      )
    return null
  }
  const found = fromRecords(sheetForEntry(site, typed, digestOf(machine)))
  if (found.run !== null && found.run !== run) {
    throw new CannotRun(
      `sheet ${found.sheet.serial} was entered in part as run \`${found.run}\`; go on with that: --run ${found.run}`
    )
  }
  if (found.run === null && run !== undefined) {
    throw new CannotRun(`run \`${run}\` was not entered from sheet ${found.sheet.serial}; leave one of the two out.`)
  }
  return found.sheet
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
