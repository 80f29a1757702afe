import { digestOf } from '@lockwright/machine'
import { systemClock } from '@lockwright/records'
import type { Paper, SheetLanguage } from '@lockwright/runner-paper'
import { compileFile } from '../compile-file.js'
import { type ExitCode, exit } from '../exit.js'
import { CannotRun } from '../read-input.js'
import { sayNote } from '../say.js'
import { siteSheetTemplates } from '../site-sheet-templates.js'
import { writeOutput } from '../write-output.js'

export interface PreviewFlags {
  readonly out: string
  readonly paper: Paper
  readonly language: SheetLanguage
}

/** A sample sheet of an invented machine, with the templates of a site. */
export async function previewTemplates(
  site: string,
  flags: PreviewFlags & { readonly paperAsked: boolean }
): Promise<ExitCode> {
  const { existsSync } = await import('node:fs')
  if (!existsSync(site)) throw new CannotRun(`cannot read ${site}: there is no such folder`)
  const { printProcedure, sampleProcedure } = await import('@lockwright/runner-paper')
  const compiled = compileFile('sample.md', new TextEncoder().encode(sampleProcedure))
  // The sample is ours and is proved by a test.
  if (compiled.kind !== 'proved') throw new Error('the sample procedure is not proved')
  const { machine, report } = compiled
  const options = {
    paper: flags.paper,
    language: flags.language,
    issue: { kind: 'draft' } as const,
    digest: digestOf(machine),
    now: systemClock.now().at,
    report
  }
  const templates = await siteSheetTemplates(machine, options, site)
  const paper = flags.paperAsked ? flags.paper : (templates?.paper ?? flags.paper)
  const pdf = await printProcedure(machine, { ...options, paper, ...(templates === undefined ? {} : { templates }) })
  writeOutput(flags.out, pdf)
  sayNote(`wrote ${flags.out}, a sample with the templates of ${site}, marked DRAFT on every page`)
  return exit.well
}
