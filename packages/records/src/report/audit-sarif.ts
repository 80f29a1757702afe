import type { SarifLog } from '@lockwright/proof'
import type { AuditFinding, AuditReport, Question } from '../audit/report.js'
import { visible } from '../visible.js'

type Run = SarifLog['runs'][0]
type Result = Run['results'][number]
type Rule = Run['tool']['driver']['rules'][number]
type Location = Result['locations'][0]

/** SARIF 2.1.0 of journals in place of procedures. */
export interface AuditSarif extends Omit<SarifLog, 'runs'> {
  readonly runs: readonly [
    Omit<Run, 'artifacts'> & { readonly artifacts: readonly { readonly location: { readonly uri: string } }[] }
  ]
}

interface Placed {
  readonly question: Question
  readonly finding: AuditFinding
}

const schema = 'https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json'
const levels = { fault: 'error', doubt: 'warning' } as const

/**
 * The findings of an audit as SARIF 2.1.0: a rule for each id, a result for each finding at its line of the journal, with
 * the further lines as related ones. What could not be answered is told in the invocation, so that an empty list of
 * results is never mistaken for a good record.
 */
export function auditSarif(report: AuditReport, { version }: { readonly version?: string } = {}): AuditSarif {
  const placed: readonly Placed[] = [...report.general, ...report.runs.flatMap(({ verdicts }) => verdicts)].flatMap(
    ({ question, findings }) => findings.map((finding) => ({ question, finding }))
  )
  const rules = rulesOf(placed)
  const files = [
    ...new Set([...report.runs.map(({ file }) => file), ...placed.map(({ finding }) => finding.file)])
  ].filter((file) => file !== '')
  return {
    $schema: schema,
    version: '2.1.0',
    runs: [
      {
        tool: { driver: { name: 'lockwright', ...(version === undefined ? {} : { semanticVersion: version }), rules } },
        columnKind: 'utf16CodeUnits',
        invocations: [
          {
            executionSuccessful: true,
            toolExecutionNotifications: report.notAnswered.map((text) => ({
              level: 'warning',
              message: { text: `Not answered: ${visible(text)}` },
              locations: []
            }))
          }
        ],
        artifacts: files.map((file) => ({ location: { uri: uriOf(file) } })),
        results: placed.map((one) =>
          resultOf(
            one,
            rules.findIndex(({ id }) => id === ruleId(one)),
            files
          )
        )
      }
    ]
  }
}

function resultOf({ question, finding }: Placed, ruleIndex: number, files: readonly string[]): Result {
  const { weight, where, what, danger, mend, also } = finding
  const text = `${what} Where: ${where}. Why it matters: ${danger} What to do: ${mend}`
  return {
    ruleId: ruleId({ question, finding }),
    ruleIndex,
    level: levels[weight],
    message: { text: visible(text) },
    locations: [locationOf(finding, finding.seq, files)],
    ...(also.length === 0
      ? {}
      : {
          relatedLocations: also.map((seq, index) => ({
            id: index + 1,
            message: { text: 'The same is to be said of this entry.' },
            ...locationOf(finding, seq, files)
          }))
        })
  }
}

function locationOf({ file }: AuditFinding, seq: number | null, files: readonly string[]): Location {
  const index = files.indexOf(file)
  return {
    physicalLocation: {
      artifactLocation: { uri: uriOf(file), ...(index === -1 ? {} : { index }) },
      region: { startLine: seq ?? 1 }
    }
  }
}

/** One id can stand under two questions, and says something else there. */
function ruleId({ question, finding }: Placed): string {
  return `${question}/${finding.id}`
}

function rulesOf(placed: readonly Placed[]): readonly Rule[] {
  const rules = new Map<string, Rule>()
  for (const one of placed) {
    const { id, danger, mend, weight } = one.finding
    const name = `${id.charAt(0).toUpperCase()}${id.slice(1).replaceAll('-', ' ')}.`
    rules.set(ruleId(one), {
      id: ruleId(one),
      shortDescription: { text: name },
      fullDescription: { text: visible(`${name} ${danger}`) },
      help: { text: visible(`Why: ${danger} What to do: ${mend}`) },
      defaultConfiguration: { level: levels[weight] }
    })
  }
  return [...rules.values()].toSorted((one, other) => (one.id < other.id ? -1 : 1))
}

/** Relative to the site folder, or a file URI where a journal lies elsewhere. */
function uriOf(file: string): string {
  const path = file
    .replaceAll('\\', '/')
    .split('/')
    .map((part) => encodeURIComponent(visible(part)))
    .join('/')
  return path.startsWith('/') ? `file://${path}` : path
}
