import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { nearest } from '@lockwright/language'
import { type Obligation, obligations } from '@lockwright/proof'
import { type ExitCode, exit } from '../exit.js'
import { sayError, sayJson, sayLine } from '../say.js'
import { type Answer, answersTo, explained } from './explain-answers.js'
import { textOf, wrapped } from './explain-text.js'

export interface ExplainOptions {
  readonly format: 'text' | 'json'
}

/** Prints what is known of a name: obligation, directive, kind, key or finding; without one, all names. */
export function explain(name: string | undefined, options: ExplainOptions): ExitCode {
  const json = options.format === 'json'
  if (name === undefined) {
    if (json) sayJson({ ...explained, obligations: obligations.map(summary) })
    else sayLine(listText())
    return exit.well
  }
  const answers = answersTo(name)
  if (answers.length === 0) {
    sayError(unknown(name))
    return exit.couldNot
  }
  if (json) sayJson({ name, answers: answers.map(told) })
  else sayLine(answers.map(textFor).join('\n\n'))
  return exit.well
}

function told(answer: Answer): unknown {
  return answer.group === 'obligation'
    ? { group: answer.group, ...summary(answer.obligation), page: pageOf(answer.obligation) }
    : { group: answer.group, text: textOf(answer) }
}

function textFor(answer: Answer): string {
  return answer.group === 'obligation' ? pageOf(answer.obligation).trimEnd() : textOf(answer)
}

function summary({ id, statement, sources, danger, waivable }: Obligation) {
  return { id, statement, sources, danger, waivable }
}

/** The pages are files of the proof package, found through its exports from the bundle and from source alike. */
function pageOf({ id }: Obligation): string {
  return readFileSync(createRequire(import.meta.url).resolve(`@lockwright/proof/pages/${id}.md`), 'utf8')
}

function unknown(name: string): string {
  const near = nearest(name, Object.values(explained).flat())
  const hint = near.length === 0 ? '' : ` Did you mean ${near.map((one) => `\`${one}\``).join(' or ')}?`
  return `nothing that is explained here is called \`${name}\`.${hint} \`lockwright explain\` lists the names.`
}

function listText(): string {
  const rows = obligations.map(
    ({ id, statement, sources, waivable }) => `${id}${waivable ? ' *' : ''}\n    ${statement} (${sources.join('; ')})`
  )
  const { obligations: _ids, ...others } = explained
  return [
    'Obligations, checked in every procedure (those marked * may be waived in writing, in the front matter):',
    '',
    ...rows,
    ...Object.entries(others).flatMap(([group, names]) => [
      '',
      `${group.charAt(0).toUpperCase()}${group.slice(1)}:`,
      '',
      wrapped(names.join(', '), '    ')
    ]),
    '',
    '`lockwright explain NAME` says more about one. The language as a whole: packages/language/LANGUAGE.md.'
  ].join('\n')
}
