import { inspect, openSite, systemClock } from '@lockwright/records'
import { type ExitCode, exit } from '../exit.js'
import { fromRecords } from '../from-records.js'
import { CannotRun } from '../read-input.js'
import { sayLine, sayNote } from '../say.js'
import { shownPath } from '../shown-path.js'
import { unlockSigner } from '../unlock-signer.js'
import { writeOutput } from '../write-output.js'

export interface InspectFlags {
  readonly by: string
  readonly employee: readonly string[]
  readonly reviewed?: readonly string[]
  readonly deviation?: readonly string[]
  readonly watched?: string
  readonly on?: string
  readonly pdf?: string
  readonly passphraseFile?: string
}

export async function inspectProcedure(folder: string, procedure: string, flags: InspectFlags): Promise<ExitCode> {
  const site = fromRecords(openSite(folder))
  const deviations = (flags.deviation ?? []).map(deviationOf)
  const signer = await unlockSigner(site, flags.by, flags.passphraseFile)
  const { inspection, file } = fromRecords(
    inspect({
      site,
      procedure,
      signer,
      clock: systemClock,
      employees: flags.employee,
      reviewed: flags.reviewed ?? [],
      deviations,
      ...(flags.on === undefined ? {} : { on: flags.on }),
      ...(flags.watched === undefined ? {} : { watched: flags.watched })
    })
  )
  sayLine(
    `${inspection.name} signed the inspection of ${inspection.procedure}, revision ${inspection.revision}, for ${inspection.equipment.tag} on ${inspection.on}: ${shownPath(file)}`
  )
  if (inspection.outstanding.length > 0) {
    const names = inspection.outstanding.map(({ id, name }) => `${name} (${id})`).join(', ')
    sayNote(
      `Outstanding: responsibilities were not gone through with ${names}, who worked by this procedure since ${inspection.from}. The audit tells of it until they are named in an inspection.`
    )
  }
  if (flags.pdf !== undefined) {
    const { printInspection } = await import('@lockwright/runner-paper')
    writeOutput(flags.pdf, await printInspection(inspection, { paper: 'a4' }))
    sayNote(`wrote ${flags.pdf}`)
  }
  return exit.well
}

function deviationOf(text: string): { readonly found: string; readonly corrected: string } {
  const [found = '', corrected, ...more] = text.split('=>')
  if (corrected === undefined || more.length > 0) {
    throw new CannotRun(`--deviation "${text}" needs one => between what was found and what was done about it.`)
  }
  return { found: found.trim(), corrected: corrected.trim() }
}
