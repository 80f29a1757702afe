import type { Diagnostic, Place } from '@lockwright/language'
import type { SarifInvocation, SarifLocation, SarifLog, SarifResult } from './sarif-log.js'
import { sarifLevel, sarifRules } from './sarif-rules.js'

/** What `check` found in one file. */
export interface CheckedFile {
  /** Path as given, with either sort of slash; the places of its diagnostics name it too. */
  readonly file: string
  readonly diagnostics: readonly Diagnostic[]
  /** Why the proof was not finished; absent where it was. */
  readonly undecided?: string
}

export interface SarifOptions {
  readonly version?: string
}

const schema = 'https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json'

/**
 * The results of a check as SARIF 2.1.0. Results keep the order of the files and of their diagnostics; the way that leads
 * to a failure is a code flow, with the ledger as the state of each step. A file of which nothing is proven is told in
 * the invocation, so that an empty list of results is never mistaken for a proof.
 */
export function sarifOf(files: readonly CheckedFile[], { version }: SarifOptions = {}): SarifLog {
  const diagnostics = files.flatMap((file) => file.diagnostics)
  const rules = sarifRules(diagnostics)
  const ruleIndex = new Map(rules.map(({ id }, index) => [id, index]))
  const names = [...new Set([...files.map(({ file }) => file), ...diagnostics.map(({ place }) => place.file)])]
  const artifactIndex = new Map(names.map((name, index) => [name, index]))
  const at = locator(artifactIndex)
  return {
    $schema: schema,
    version: '2.1.0',
    runs: [
      {
        tool: {
          driver: { name: 'lockwright', ...(version === undefined ? {} : { semanticVersion: version }), rules }
        },
        columnKind: 'utf16CodeUnits',
        invocations: [invocationOf(files, at)],
        artifacts: names.map((name) => ({ location: { uri: uriOf(name) }, sourceLanguage: 'markdown' })),
        results: diagnostics.map((diagnostic) => resultOf(diagnostic, ruleIndex.get(diagnostic.id) ?? -1, at))
      }
    ]
  }
}

type Region = SarifLocation['physicalLocation']['region']
type Locate = (file: string, region: Region) => SarifLocation

function locator(artifactIndex: ReadonlyMap<string, number>): Locate {
  return (file, region) => {
    const index = artifactIndex.get(file)
    return {
      physicalLocation: {
        artifactLocation: { uri: uriOf(file), ...(index === undefined ? {} : { index }) },
        region
      }
    }
  }
}

function invocationOf(files: readonly CheckedFile[], at: Locate): SarifInvocation {
  const unproven = files.flatMap(({ file, undecided }) => (undecided === undefined ? [] : [{ file, undecided }]))
  return {
    executionSuccessful: unproven.length === 0,
    toolExecutionNotifications: unproven.map(({ file, undecided }) => ({
      level: 'error',
      message: { text: `Undecided: ${undecided}; nothing is proven.` },
      locations: [at(file, { startLine: 1 })]
    }))
  }
}

function resultOf(diagnostic: Diagnostic, ruleIndex: number, at: Locate): SarifResult {
  const { id, severity, place, what, danger, mend, related, path } = diagnostic
  const main = at(place.file, regionOf(place))
  return {
    ruleId: id,
    ruleIndex,
    level: sarifLevel(severity),
    message: { text: `${what} Why it is dangerous: ${danger} How to mend: ${mend}` },
    locations: [main],
    ...(related.length === 0
      ? {}
      : {
          relatedLocations: related.map((other, index) => ({
            id: index + 1,
            message: { text: other.note },
            ...at(other.place.file, regionOf(other.place))
          }))
        }),
    ...(path.length === 0
      ? {}
      : {
          codeFlows: [
            {
              message: { text: 'The shortest way that leads here.' },
              threadFlows: [
                {
                  locations: path.map(({ line, title, ledger }, index) => ({
                    location: { message: { text: title }, ...at(place.file, { startLine: line }) },
                    executionOrder: index + 1,
                    state: { ledger: { text: ledger } }
                  }))
                }
              ]
            }
          ]
        })
  }
}

/** An empty place stays empty: SARIF sets the end behind the last character, as we do. */
function regionOf({ start, end }: Place): Region {
  return { startLine: start.line, startColumn: start.column, endLine: end.line, endColumn: end.column }
}

/** A path as a URI reference: relative stays relative, a drive or a leading slash becomes a file URI. */
function uriOf(file: string): string {
  const parts = file.replaceAll('\\', '/').split('/')
  const drive = /^[A-Za-z]:$/.test(parts[0] ?? '')
  const path = parts.map((part, index) => (drive && index === 0 ? part : encodeURIComponent(part))).join('/')
  if (drive) return `file:///${path}`
  return path.startsWith('/') ? `file://${path}` : path
}
