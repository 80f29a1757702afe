import { join } from 'node:path'
import {
  curveSvg,
  type EnergySheet,
  energySheet,
  formatEnergySheet,
  parseWhatIf,
  type WhatIf
} from '@lockwright/energy'
import { nearest, parseProcedure } from '@lockwright/language'
import { digestOf, type Machine, writtenWaits } from '@lockwright/machine'
import { compile } from '@lockwright/machine/lower'
import { systemClock } from '@lockwright/records'
import type { Paper, SheetLanguage } from '@lockwright/runner-paper'
import { type ExitCode, exit } from '../exit.js'
import { findingsText } from '../findings.js'
import { CannotRun, readInput } from '../read-input.js'
import { sayJson, sayLine, sayNote } from '../say.js'
import { writeOutput } from '../write-output.js'

export interface EnergyFlags {
  readonly format: 'text' | 'json' | 'pdf'
  readonly out?: string
  readonly svg?: string
  readonly whatIf?: readonly string[]
  readonly paper: Paper
  readonly language?: SheetLanguage
}

/** The calculation sheet of a procedure; it need not be proved, for the figures are often what it is mended by. */
export async function energy(file: string, flags: EnergyFlags): Promise<ExitCode> {
  if (flags.format === 'pdf' && flags.out === undefined) {
    throw new CannotRun('a PDF goes to a file: name it with --out.')
  }
  const whatIf = readWhatIfs(flags.whatIf ?? [])
  const machine = compiled(file)
  if (machine === null) return exit.findings
  refuseUnknownSources(machine, whatIf)
  const sheet = energySheet(machine.sources, { whatIf, writtenWaits: writtenWaits(machine) })
  if (flags.svg !== undefined) writeCurves(sheet, flags.svg)
  await give(machine, sheet, flags)
  return exit.well
}

function readWhatIfs(texts: readonly string[]): readonly WhatIf[] {
  const read = texts.map((text) => parseWhatIf(text))
  const faults = read.flatMap((each) => (each.ok ? [] : [each.why]))
  if (faults.length > 0) throw new CannotRun(faults.join('\n'))
  return read.flatMap((each) => (each.ok ? [each.value] : []))
}

/** A slip of the pen in a name must not pass for a result. */
function refuseUnknownSources({ sources }: Machine, whatIf: readonly WhatIf[]): void {
  const known = sources.map(({ id }): string => id)
  const unknown = whatIf.flatMap(({ source }) => (source === undefined || known.includes(source) ? [] : [source]))
  if (unknown.length === 0) return
  const faults = [...new Set(unknown)].map((source) => {
    const near = nearest(source, known)
    const named = (near.length === 0 ? known : near).map((id) => `\`${id}\``).join(', ')
    return `no energy source of this procedure is called \`${source}\`; ${near.length === 0 ? 'there is' : 'near is'} ${named}.`
  })
  throw new CannotRun(faults.join('\n'))
}

/** Read and compiled, not proved; null once the findings were printed. */
function compiled(file: string): Machine | null {
  const bytes = readInput(file)
  const procedure = parseProcedure({ file, bytes })
  const machine = procedure.ok ? compile(procedure.value) : procedure
  if (machine.ok) return machine.value
  sayNote(findingsText({ file, bytes, compiled: { kind: 'malformed', diagnostics: machine.diagnostics } }))
  return null
}

function writeCurves(sheet: EnergySheet, folder: string): void {
  const curves = sheet.entries.flatMap((entry) => (entry.curve === undefined ? [] : [{ ...entry, curve: entry.curve }]))
  for (const { id, curve, wait } of curves) {
    const { label } = wait.grounds
    const file = join(folder, `${id}.svg`)
    const title = `${id}: ${curve.title.toLowerCase()} over time`
    writeOutput(file, curveSvg(curve, { title, ...(label === undefined ? {} : { labelWait: label }) }))
    sayNote(`wrote ${file}`)
  }
  if (curves.length === 0) sayNote('no curve was written: of no energy here can a decay be computed.')
}

async function give(
  machine: Machine,
  sheet: EnergySheet,
  { format, out, paper, language }: EnergyFlags
): Promise<void> {
  const { procedure, revision, title, equipment } = machine
  switch (format) {
    case 'text': {
      const text = `Stored energies of ${procedure}, revision ${revision}: ${title}\n\n${formatEnergySheet(sheet)}`
      if (out === undefined) sayLine(text.trimEnd())
      else writeOutput(out, text)
      break
    }
    case 'json': {
      const value = { procedure, revision, title, equipment, digest: digestOf(machine), ...sheet }
      if (out === undefined) sayJson(value)
      else writeOutput(out, `${JSON.stringify(value)}\n`)
      break
    }
    case 'pdf': {
      const { printEnergySheet } = await import('@lockwright/runner-paper')
      const pdf = await printEnergySheet(machine, sheet, {
        paper,
        ...(language === undefined ? {} : { language }),
        digest: digestOf(machine),
        now: systemClock.now().at
      })
      if (out !== undefined) writeOutput(out, pdf)
      break
    }
  }
  if (out === undefined) return
  for (const remark of sheet.remarks) sayNote(remark)
  sayNote(`wrote ${out}`)
}
