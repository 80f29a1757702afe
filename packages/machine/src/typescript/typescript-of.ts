import { digestOf } from '../digest.js'
import type { Machine } from '../machine.js'
import type { State } from '../state.js'
import { answersOf, literal } from './answers-of.js'

/** Helper types that a generated answer may name. */
const helpers = [
  'Choice',
  'Deviation',
  'Done',
  'Finished',
  'Late',
  'LockHung',
  'LockRemoved',
  'ReadingTaken',
  'Signed',
  'Waited'
]

/**
 * A machine as one TypeScript module: the machine as data, the answers that each state takes as literal
 * types, and `start` and `advance` bound to them. The same machine gives the same text.
 */
export function typescriptOf(machine: Machine): string {
  const answers = machine.states.flatMap((state) => {
    const members = answersOf(machine, state)
    return members === null ? [] : [{ state, members }]
  })
  const written = answers.flatMap(({ members }) => members).join(' ')
  const used = helpers.filter((helper) => written.includes(`${helper}<`))
  return [
    '/**',
    ` * ${comment(`${machine.procedure}, revision ${machine.revision}: ${machine.title}`)}`,
    ' *',
    ' * Written by `lockwright build --as typescript`. Change the procedure and build again, never this file.',
    ` * Digest of the machine (SHA-256 over its RFC 8785 form): ${digestOf(machine)}`,
    ' */',
    "import type { Machine } from '@lockwright/machine'",
    'import {',
    ...used.map((helper) => `  type ${helper},`),
    '  typedMachine',
    "} from '@lockwright/machine/typescript'",
    '',
    '/** What each state asks for; nothing else compiles. */',
    'export interface Answers {',
    ...answers.flatMap(({ state, members }) => entry(state, members)),
    '}',
    '',
    '/** Every state that a run can stand in. */',
    'export type StateName = keyof Answers',
    '',
    `export const { machine, start, advance, standing } = typedMachine<Answers, ${literal(machine.start)}>({`,
    Object.entries(machine)
      .map(([key, value]) => `  ${JSON.stringify(key)}: ${data(value)}`)
      .join(',\n'),
    '} as unknown as Machine)',
    ''
  ].join('\n')
}

function entry(state: State, members: readonly string[]): string[] {
  return [
    `  /** Line ${state.span.line}. ${comment(state.title)} */`,
    `  readonly ${literal(state.id)}:${members.length < 2 ? ` ${members[0] ?? 'never'}` : members.map((member) => `\n    | ${member}`).join('')}`
  ]
}

/** Data as JSON, an array with one item a line, so that a change of one step is a change of one line. */
function data(value: unknown): string {
  if (!Array.isArray(value) || value.length === 0) return JSON.stringify(value)
  return `[\n${value.map((item) => `    ${JSON.stringify(item)}`).join(',\n')}\n  ]`
}

/** One line that cannot end the comment it stands in. */
function comment(text: string): string {
  return text.replace(/[\p{Cc}\u2028\u2029]+/gu, ' ').replaceAll('*/', '* /')
}
