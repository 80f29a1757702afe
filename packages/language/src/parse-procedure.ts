import type { Root } from 'mdast'
import { checkRepeats } from './body/check-repeats.js'
import { BodyContext } from './body/context.js'
import { declareNames } from './body/declare-names.js'
import { readProcedureBody } from './body/read-blocks.js'
import { decodeSource, type ProcedureSource } from './decode-source.js'
import type { Result } from './diagnostic.js'
import { Faults } from './faults.js'
import { findFrontMatter } from './front-matter/find-front-matter.js'
import { emptyFrontMatter, openFrontMatter, readFrontMatter } from './front-matter/read-front-matter.js'
import { readYaml } from './front-matter/read-yaml.js'
import { checkParsedLines } from './markdown/check-parsed-lines.js'
import { parseParts } from './markdown/parse-parts.js'
import { Names } from './names.js'
import type { Place } from './place.js'
import type { Procedure } from './procedure.js'
import { scanSource } from './scan/scan-source.js'
import type { SourceText } from './source-text.js'

/**
 * Reads one procedure. All faults of the file come back at once, by line, column and id; nothing that stands in a file
 * makes it throw, and the time is linear in the file's length.
 */
export function parseProcedure(given: ProcedureSource): Result<Procedure> {
  const faults = new Faults()
  const source = decodeSource(given, faults)
  const procedure = source === undefined ? undefined : readSource(source, faults)
  const diagnostics = faults.sorted()
  if (diagnostics !== undefined) return { ok: false, diagnostics }
  if (procedure === undefined) throw new Error('A file without a fault gave no procedure.')
  return { ok: true, value: procedure, warnings: faults.warnings() }
}

function readSource(source: SourceText, faults: Faults): Procedure | undefined {
  const frontMatter = findFrontMatter(source, faults)
  const scan = scanSource(source, frontMatter?.next ?? 1, faults)
  if (frontMatter === undefined) return undefined

  const names = new Names(faults)
  for (const name of scan.lostNames) names.lose(name)
  const yaml = readYaml(source, frontMatter, faults)
  const fields = yaml === undefined ? undefined : openFrontMatter(yaml, source, names, faults)
  const root: Root = parseParts(scan.parts)
  if (fields === undefined || scan.parts.length === 0) names.incomplete = true
  checkParsedLines(root, scan, source, faults)
  declareNames(root, names, (position) => ({
    file: source.file,
    start: source.point(position.start.offset ?? 0),
    end: source.point(position.end.offset ?? 0)
  }))

  const head = fields === undefined ? emptyFrontMatter : readFrontMatter(fields, names, faults)
  const context = new BodyContext(source, faults, names, head, scan)
  const { items, body } = readProcedureBody(root.children, context)
  checkRepeats(body, context)
  if (!context.anyWork) warnOfNoWork(fields?.placeOfValue('title'), source, faults)
  return { file: source.file, head, items, body, end: source.place(source.text.length, source.text.length) }
}

/** Said at the title: there is no line that lacks the work. */
function warnOfNoWork(title: Place | undefined, source: SourceText, faults: Faults): void {
  faults.warn(
    'no-work',
    title ?? source.placeOfLine(1),
    'Nothing in this file counts as hands-on work on a dead machine: only a numbered list or `:::work` does; bullets and prose are information.',
    'Write what is done with hands in the machine as a numbered list, or inside `:::work` and its closing `:::`; where there is no such work, leave the file as it is.'
  )
}
