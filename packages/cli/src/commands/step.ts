import type { PersonId } from '@lockwright/machine'
import type { ProvedMachine } from '@lockwright/proof'
import {
  holdsAt,
  isIssued,
  openSite,
  personOf,
  type Run,
  type RunMode,
  readRoster,
  type Site,
  systemClock
} from '@lockwright/records'
import {
  type Answers,
  chooseShell,
  type Ended,
  plainStreams,
  type RunPort,
  runAnswers,
  type SessionOptions,
  scriptedClock,
  sleepUntil,
  stepInPlainLines,
  stepOnFullScreen,
  tellEnded
} from '@lockwright/runner-terminal'
import { answersFrom, passphraseFrom } from '../answers-from.js'
import { type ExitCode, exit } from '../exit.js'
import { fromRecords } from '../from-records.js'
import { keepAttachment } from '../keep-attachment.js'
import { keyRing } from '../key-ring.js'
import { openRun } from '../open-run.js'
import { provedMachine } from '../proved-machine.js'
import { CannotRun } from '../read-input.js'
import { sayNote } from '../say.js'
import { shownPath } from '../shown-path.js'
import { tellOutcome } from '../tell-outcome.js'

export interface StepFlags {
  readonly site: string
  readonly by: string
  readonly answers?: string
  readonly plain?: true
  readonly run?: string
  readonly new?: true
  readonly rehearse?: true
  readonly passphraseFile?: string
}

export async function step(file: string, flags: StepFlags): Promise<ExitCode> {
  const proved = provedMachine(file)
  if (proved === null) return exit.findings
  const { machine } = proved
  const site = fromRecords(openSite(flags.site))
  const answers = flags.answers === undefined ? null : answersFrom(flags.answers)
  const mode: RunMode = flags.rehearse === true ? 'rehearsal' : isIssued(site, machine) ? 'issued' : 'draft'
  if (mode === 'draft') sayNote('No coordinator has issued this procedure here: the run is marked DRAFT for good.')
  const times = answers?.clock ?? null
  if (times !== null && mode === 'issued') throw new CannotRun(noScriptedTimes)
  const scripted = times === null ? null : scriptedClock(times.start)
  const clock = scripted ?? systemClock
  const by = flags.by as PersonId
  const { run, takenUp } = openRun({ site, machine, mode, by, clock, run: flags.run, fresh: flags.new === true })
  tellRun(run, takenUp)
  const now = () => clock.now().at
  const session: SessionOptions = {
    person: by,
    keys: keyRing(site, now),
    now,
    takenUp,
    ...(mode === 'issued' ? { barred: barredBy(site, run.machine, now) } : {}),
    attach: (path) => keepAttachment(site, path)
  }
  try {
    const ended = answers === null ? await onTerminal(run, session, flags) : await fromFile(run, session, answers)
    tellNext(run, site)
    return ended === 'finished' || ended === 'stopped' ? exit.well : exit.findings
  } finally {
    run.close()
  }

  async function fromFile(run: RunPort, session: SessionOptions, answers: Answers): Promise<Ended | null> {
    const outcome = await runAnswers(run, answers, {
      ...session,
      clock:
        scripted !== null
          ? { kind: 'scripted', clock: scripted }
          : { kind: 'computer', now, sleepUntil: (at, aborted) => sleepUntil(at, now, aborted) },
      onPaper: false,
      passphrase: (from, person) => (from === null ? ownPassphrase(person, flags) : passphraseFrom(from)),
      watch: sayNote
    })
    return tellOutcome(outcome)
  }
}

/** The roster, asked before a passphrase is: the records ask it again once the signature is there. */
function barredBy(site: Site, machine: ProvedMachine, now: () => string): NonNullable<SessionOptions['barred']> {
  return (id, role) => {
    const declared = machine.roles.find((one) => one.id === role)
    if (declared === undefined || declared.holds.length === 0) return null
    const roster = readRoster(site)
    if (!roster.ok) return { why: roster.faults[0].what, mend: roster.faults[0].mend }
    const person = personOf(roster.value, id)
    if (person !== null && holdsAt(person, declared.holds, now())) return null
    const missing = declared.holds.map((held) => `\`${held}\``).join(' and ')
    return {
      why: `This asks for a ${declared.name}. The roster does not show ${missing} for \`${id}\` today.`,
      mend: 'Have it signed by someone who holds it, or stop.'
    }
  }
}

const noScriptedTimes =
  'the answers bring their own times (`clock:`), and this run is for work on the real machine. Leave the times out, ' +
  'rehearse it with --rehearse, or enter a completed sheet with `lockwright enter`.'

async function onTerminal(run: RunPort, session: SessionOptions, flags: StepFlags): Promise<Ended> {
  const { stdin, stdout, env } = process
  if (flags.plain !== true && chooseShell(stdin, stdout, env) === 'full-screen') {
    const ended = await stepOnFullScreen(run, { ...session, stdin, stdout, env })
    sayNote(tellEnded(ended))
    return ended
  }
  const { close, ...streams } = plainStreams({ input: stdin, output: stdout }, session.now)
  try {
    return await stepInPlainLines(run, { ...session, ...streams })
  } finally {
    close()
  }
}

/** Where an answer does not say where a passphrase is: that of `--by`, as every command is given it. */
function ownPassphrase(person: PersonId, { by, passphraseFile }: StepFlags): ReturnType<typeof passphraseFrom> {
  if (person === by && passphraseFile !== undefined) return passphraseFrom(`file:${passphraseFile}`)
  const given = person === by ? (process.env['LOCKWRIGHT_PASSPHRASE'] ?? '') : ''
  return given === ''
    ? { ok: false, why: `The answer does not say where the passphrase of \`${person}\` is.` }
    : { ok: true, value: given }
}

function tellRun(run: Run, takenUp: boolean): void {
  sayNote(takenUp ? `going on with run ${run.id}, exactly where it was` : `opened run ${run.id}`)
  if (run.setAside === null) return
  sayNote(
    `The last line of the journal was cut off in the middle and was set aside, unread: ${run.setAside.file} ` +
      `(${run.setAside.bytes} bytes). Nothing whole was lost.`
  )
}

function tellNext(run: Run, site: Site): void {
  sayNote(`The journal is ${shownPath(run.file)}; \`lockwright audit ${shownPath(site.folder)}\` checks it.`)
}
