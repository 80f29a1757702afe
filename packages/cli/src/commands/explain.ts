import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { nearest } from '@lockwright/language'
import { type Obligation, obligations } from '@lockwright/proof'
import { type ExitCode, exit } from '../exit.js'
import { sayError, sayJson, sayLine } from '../say.js'

export interface ExplainOptions {
  readonly format: 'text' | 'json'
}

/** Prints the page of one obligation, or the list of all. */
export function explain(id: string | undefined, options: ExplainOptions): ExitCode {
  if (id === undefined) {
    if (options.format === 'json') sayJson({ obligations: obligations.map(summary) })
    else sayLine(listText())
    return exit.well
  }
  const obligation = obligations.find((one) => one.id === id)
  if (obligation === undefined) {
    sayError(unknown(id))
    return exit.couldNot
  }
  const page = pageOf(obligation)
  if (options.format === 'json') sayJson({ ...summary(obligation), page })
  else sayLine(page.trimEnd())
  return exit.well
}

function summary({ id, statement, sources, danger, waivable }: Obligation) {
  return { id, statement, sources, danger, waivable }
}

/** The pages are files of the proof package, found through its exports from the bundle and from source alike. */
function pageOf({ id }: Obligation): string {
  return readFileSync(createRequire(import.meta.url).resolve(`@lockwright/proof/pages/${id}.md`), 'utf8')
}

function unknown(id: string): string {
  const near = nearest(
    id,
    obligations.map((one) => one.id)
  )
  const hint = near.length === 0 ? '' : ` Did you mean ${near.map((one) => `\`${one}\``).join(' or ')}?`
  return `no obligation bears the id \`${id}\`.${hint} \`lockwright explain\` lists them.`
}

function listText(): string {
  const rows = obligations.map(
    ({ id, statement, sources, waivable }) => `${id}${waivable ? ' *' : ''}\n    ${statement} (${sources.join('; ')})`
  )
  return [
    'Checked in every procedure (those marked * may be waived in writing, in the front matter):',
    '',
    ...rows,
    '',
    '`lockwright explain ID` says more about one.'
  ].join('\n')
}
