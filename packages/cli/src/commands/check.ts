import { type CheckedFile, sarifOf } from '@lockwright/proof'
import { compileFile } from '../compile-file.js'
import { type ExitCode, exit, graver } from '../exit.js'
import { expandFiles } from '../expand-files.js'
import { type Checked, findingsText, inOrder } from '../findings.js'
import { CannotRun, readInput } from '../read-input.js'
import { type ReportedDiagnostic, reportJson } from '../report-json.js'
import { sayError, sayJson, sayLine } from '../say.js'
import { version } from '../version.js'

export interface CheckOptions {
  readonly format: 'text' | 'json' | 'sarif'
  readonly quiet?: true
}

/** One file of `check --format json`. */
export interface ReportedFile {
  readonly file: string
  readonly verdict: Checked['compiled']['kind']
  readonly states: number
  readonly configurations: number
  readonly diagnostics: readonly ReportedDiagnostic[]
}

/** Checks every file in this one process; a file that cannot be read does not keep the others from being checked. */
export function check(names: readonly string[], options: CheckOptions): ExitCode {
  const files = expandFiles(names)
  if (files.length === 0) {
    sayError('no procedure to check: the folders named hold no file that ends in .md.')
    return exit.couldNot
  }
  let code: ExitCode = exit.well
  let anyProved = false
  const all: Checked[] = []
  for (const file of files) {
    const checked = checkOne(file)
    if (checked === null) {
      code = exit.couldNot
      continue
    }
    const proved = checked.compiled.kind === 'proved'
    if (proved) anyProved = true
    else code = graver(code, exit.findings)
    if (options.format !== 'text') all.push(checked)
    else if (!proved || options.quiet !== true) sayLine(`${findingsText(checked)}\n`)
  }
  if (options.format === 'json') sayJson({ files: all.map(fileJson) })
  else if (options.format === 'sarif') sayJson(sarifOf(all.map(sarifFile), { version }))
  else if (anyProved && options.quiet !== true) sayLine(caution)
  return code
}

const caution =
  'Proved means that the obligations which `lockwright explain` lists hold in the procedure as written, no more.\n' +
  "It replaces neither the plant's rules nor local codes nor the judgement of qualified people."

function checkOne(file: string): Checked | null {
  try {
    const bytes = readInput(file)
    return { file, bytes, compiled: compileFile(file, bytes) }
  } catch (error) {
    if (!(error instanceof CannotRun)) throw error
    sayError(error.message)
    return null
  }
}

function sarifFile({ file, compiled }: Checked): CheckedFile {
  const diagnostics = inOrder(compiled.diagnostics)
  return compiled.kind === 'undecided' ? { file, diagnostics, undecided: compiled.reason } : { file, diagnostics }
}

function fileJson({ file, compiled }: Checked): ReportedFile {
  const size = compiled.kind === 'malformed' ? { states: 0, configurations: 0 } : compiled.report
  return {
    file,
    verdict: compiled.kind,
    states: size.states,
    configurations: size.configurations,
    diagnostics: inOrder(compiled.diagnostics).map(reportJson)
  }
}
