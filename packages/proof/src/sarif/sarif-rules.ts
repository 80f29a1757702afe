import type { Diagnostic } from '@lockwright/language'
import type { Obligation } from '../obligation.js'
import { obligations } from '../obligations/index.js'
import type { SarifLevel, SarifRule } from './sarif-log.js'

/** One rule for every obligation, found broken or not, and one for every other id that was reported. */
export function sarifRules(diagnostics: readonly Diagnostic[]): readonly SarifRule[] {
  const known = new Set(obligations.map(({ id }) => id))
  const others = new Map<string, Diagnostic>()
  for (const diagnostic of diagnostics) {
    if (!known.has(diagnostic.id) && !others.has(diagnostic.id)) others.set(diagnostic.id, diagnostic)
  }
  const named = [...others.values()].sort((one, other) => (one.id < other.id ? -1 : 1))
  return [...obligations.map(obligationRule), ...named.map(otherRule)]
}

export function sarifLevel(severity: Diagnostic['severity']): SarifLevel {
  switch (severity) {
    case 'error':
      return 'error'
    case 'warning':
      return 'warning'
    case 'advice':
      return 'note'
  }
}

function obligationRule({ id, statement, sources, danger, waivable }: Obligation): SarifRule {
  const waiver = waivable ? 'It may be waived in writing, under `waive`.' : 'It cannot be waived.'
  return {
    id,
    shortDescription: { text: sentence(statement) },
    fullDescription: { text: `${sentence(statement)} ${sentence(danger)}` },
    help: {
      text: `${sentence(statement)}\nSource: ${sources.join('; ')}.\nWhy: ${sentence(danger)}\n${waiver}\nMore: lockwright explain ${id}`
    },
    defaultConfiguration: { level: 'error' }
  }
}

function otherRule({ id, severity, danger, mend }: Diagnostic): SarifRule {
  const name = sentence(id.replaceAll('-', ' '))
  return {
    id,
    shortDescription: { text: name },
    fullDescription: { text: `${name} ${danger}` },
    help: { text: `Why: ${danger}\nHow to mend: ${mend}` },
    defaultConfiguration: { level: sarifLevel(severity) }
  }
}

/** With a capital at the front and a full stop at the end. */
function sentence(clause: string): string {
  const begun = `${clause.charAt(0).toUpperCase()}${clause.slice(1)}`
  return /[.!?]$/.test(begun) ? begun : `${begun}.`
}
