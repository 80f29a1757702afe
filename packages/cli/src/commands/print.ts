import { dirname } from 'node:path'
import { digestOf } from '@lockwright/machine'
import { namedPictures, systemClock } from '@lockwright/records'
import type { Paper, SheetLanguage } from '@lockwright/runner-paper'
import { type ExitCode, exit } from '../exit.js'
import { issueState } from '../issue-state.js'
import { openRegister } from '../open-register.js'
import { pictureNotes } from '../picture-notes.js'
import { provedMachine } from '../proved-machine.js'
import { CannotRun, readInput } from '../read-input.js'
import { sayNote } from '../say.js'
import { siteSheetTemplates } from '../site-sheet-templates.js'
import { besideTranslation, readTranslation, type TranslationFlags } from '../translation.js'
import { writeOutput } from '../write-output.js'

export interface PrintFlags extends TranslationFlags {
  readonly out: string
  readonly paper: Paper
  /** Named by whoever prints, so that a site's template does not decide it. */
  readonly paperAsked?: boolean
  readonly for?: readonly string[]
  readonly site?: string
  readonly language?: SheetLanguage
  /** Who prints it, for the register of sheets. */
  readonly by?: string
}

export async function print(file: string, flags: PrintFlags): Promise<ExitCode> {
  const proved = provedMachine(file)
  if (proved === null) return exit.findings
  const { machine, report } = proved
  const { chooseGenerations, folderImages, printProcedure } = await import('@lockwright/runner-paper')
  const chosen = chooseGenerations(machine, flags.for ?? [])
  if (!chosen.ok) throw new CannotRun(chosen.faults.join('\n'))
  const images = folderImages(dirname(file))
  const issue = issueState(machine, flags.site, images.seen(namedPictures(machine)))
  const options = {
    paper: flags.paper,
    ...(flags.for === undefined ? {} : { for: chosen.generations }),
    ...(flags.language === undefined ? {} : { language: flags.language }),
    issue,
    digest: digestOf(machine),
    now: systemClock.now().at,
    zone: zoneNow(),
    report,
    images: images.load
  }
  const templates = await siteSheetTemplates(machine, options, flags.site)
  const paper = flags.paperAsked ? flags.paper : (templates?.paper ?? flags.paper)
  const translation = readTranslation(file, machine, flags)
  if (translation === null) return exit.findings
  const language = flags.language ?? machine.language
  const sheet = openRegister(flags.site, {
    machine: options.digest,
    procedure: machine.procedure,
    revision: machine.revision,
    generations: flags.for === undefined ? {} : chosen.generations,
    languages: translation === undefined ? [language] : [language, translation.machine.language],
    printedAt: options.now,
    ...(flags.by === undefined ? {} : { by: flags.by })
  })
  const pdf = await sheet.printed(async () => {
    const numbered = { ...options, paper, ...sheet.numbered }
    // Filled once more, now that a template can name the serial.
    const filled = await siteSheetTemplates(machine, numbered, flags.site)
    const whole = { ...numbered, ...(filled === undefined ? {} : { templates: filled }) }
    return translation === undefined
      ? printProcedure(machine, whole)
      : besideTranslation(file, machine, translation, whole)
  })
  if (pdf === null) return exit.findings
  for (const note of pictureNotes(file, readInput(file), images.faults())) sayNote(note)
  await sheet.printed(() => writeOutput(flags.out, pdf))
  sayNote(`wrote ${flags.out}${issue.kind === 'draft' ? ', marked DRAFT on every page' : `, issued by ${issue.by}`}`)
  sayNote(sheet.told)
  return exit.well
}

/** Offset of this computer's clock from UTC, `+01:00`: the sheet says it, so that its times can be read anywhere. */
function zoneNow(): string {
  const minutes = -new Date().getTimezoneOffset()
  const two = (number: number): string => String(number).padStart(2, '0')
  const ahead = Math.abs(minutes)
  return `${minutes < 0 ? '-' : '+'}${two(Math.floor(ahead / 60))}:${two(ahead % 60)}`
}
