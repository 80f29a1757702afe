import type { Diagnostic, NonEmpty, Place } from '@lockwright/language'
import { type Machine, type PackedLedger, type Span, unpack } from '@lockwright/machine'
import { type Exploration, explore } from './explore.js'
import { type Group, groupsOf } from './findings.js'
import type { Declared, Finding, Obligation, ReachableGraph } from './obligation.js'
import { obligations } from './obligations/index.js'
import { pathTo } from './path.js'
import { undoneOnWay } from './undone.js'
import type { Outcome, ProofReport, ProvedMachine, Verdict } from './verdict.js'
import { unique } from './vocabulary.js'

export interface ProveOptions {
  /** File that the places of diagnostics name. */
  readonly file?: string
  /** The most configurations that are explored before the verdict is `undecided`. */
  readonly limit?: number
}

/** Enough for the largest machine that compiles, at some hundred bytes a configuration. */
export const defaultLimit = 2_000_000

/** What came of one obligation. */
interface Judged {
  readonly obligation: Obligation
  readonly outcome: Outcome
  readonly diagnostics: readonly Diagnostic[]
  /** What the obligation would have said, had it not been waived. */
  readonly waived: readonly Diagnostic[]
}

/**
 * Explores the machine and judges every obligation. The only way to a `ProvedMachine`.
 * A machine that was read from a file is proved again, never believed.
 */
export function prove(machine: Machine, { file = '', limit = defaultLimit }: ProveOptions = {}): Verdict {
  const started = performance.now()
  const exploration = explore(machine, limit)
  const groups = groupsOf(exploration)
  const judged = obligations.map((obligation) => judge(obligation, exploration, groups, file))
  const diagnostics = judged.flatMap((one) => one.diagnostics).sort(byPlace)
  const report: ProofReport = {
    states: machine.states.length,
    configurations: exploration.configurations,
    milliseconds: performance.now() - started,
    obligations: judged.map(({ obligation, outcome }) => ({ id: obligation.id, outcome }))
  }
  if (!exploration.complete) {
    const reason = `more than ${limit} configurations; the rest was not looked at, so nothing is proven`
    return { kind: 'undecided', reason, diagnostics, report }
  }
  if (isNonEmpty(diagnostics)) return { kind: 'refused', diagnostics, report }
  return {
    kind: 'proved',
    machine: machine as ProvedMachine,
    report,
    notes: judged.flatMap((one) => one.waived).sort(byPlace)
  }
}

function judge(obligation: Obligation, exploration: Exploration, groups: readonly Group[], file: string): Judged {
  const { machine } = exploration.model
  const { check } = obligation
  const broken = groups.filter((group) => group.obligation === obligation.id)
  const found: Declared =
    check.kind === 'declared' || check.kind === 'needs-and-declared'
      ? check.find(machine)
      : check.kind === 'graph' && exploration.complete
        ? check.find(graphOf(exploration))
        : { arises: check.kind === 'graph', findings: [] }
  const diagnostics = onePerPlace([
    ...found.findings.map((finding) => declaredDiagnostic(obligation, finding, file)),
    ...(check.kind === 'needs' || check.kind === 'needs-and-declared'
      ? broken.map((group) => exploredDiagnostic(obligation, check, group, exploration, file))
      : [])
  ])
  const arises = found.arises || exploration.asked.has(obligation.id) || broken.length > 0
  const waiver = machine.waivers.find((one) => one.obligation === obligation.id)
  // A machine that was read from a file may hold a waiver of what cannot be waived: it counts for nothing.
  if (diagnostics.length > 0 && obligation.waivable && waiver !== undefined) {
    const waived = diagnostics.map((diagnostic) => waivedDiagnostic(diagnostic, waiver, file))
    return { obligation, outcome: 'waived', diagnostics: [], waived }
  }
  const outcome: Outcome =
    diagnostics.length > 0 ? 'fails' : !exploration.complete ? 'undecided' : arises ? 'holds' : 'does-not-arise'
  return { obligation, outcome, diagnostics, waived: [] }
}

function graphOf({ model, reached, stuck }: Exploration): ReachableGraph {
  return { machine: model.machine, reached: (index) => reached[index] === true, stuck }
}

function placeOf(file: string, span: Span): Place {
  return {
    file,
    start: { line: span.line, column: span.column, offset: 0 },
    end: { line: span.endLine, column: span.endColumn, offset: 0 }
  }
}

function declaredDiagnostic({ id, danger }: Obligation, finding: Finding, file: string): Diagnostic {
  return {
    id,
    severity: 'error',
    place: placeOf(file, finding.span),
    what: finding.what,
    danger,
    mend: finding.mend,
    related: finding.related.map(({ span, note }) => ({ place: placeOf(file, span), note })),
    path: []
  }
}

function exploredDiagnostic(
  { id, danger }: Obligation,
  words: Extract<Obligation['check'], { kind: 'needs' | 'needs-and-declared' }>,
  group: Group,
  exploration: Exploration,
  file: string
): Diagnostic {
  const { model, ledgerOf } = exploration
  const ledger = unpack(model, ledgerOf[group.configuration] as PackedLedger)
  const undone = undoneOnWay(exploration, group.configuration)
  const failure = { machine: model.machine, state: group.state, faults: group.faults, ledger, undone }
  return {
    id,
    severity: 'error',
    place: placeOf(file, group.state.span),
    what: words.what(failure),
    danger,
    mend: words.mend(failure),
    related: [],
    path: pathTo(exploration, group.configuration)
  }
}

/** What a waiver leaves standing: told as a warning, with who answers for it and why. */
function waivedDiagnostic(
  diagnostic: Diagnostic,
  { span, why, by }: Machine['waivers'][number],
  file: string
): Diagnostic {
  return {
    ...diagnostic,
    severity: 'warning',
    what: `${diagnostic.what} Waived by ${by}: ${why.replace(/\.$/u, '')}.`,
    related: [...diagnostic.related, { place: placeOf(file, span), note: 'Here it is waived.' }]
  }
}

/** Several faults of one obligation at one place are told together: there is one place to mend. */
function onePerPlace(diagnostics: readonly Diagnostic[]): readonly Diagnostic[] {
  const places = new Map<string, Diagnostic[]>()
  for (const diagnostic of diagnostics) {
    const key = `${diagnostic.place.start.line}:${diagnostic.place.start.column}`
    const known = places.get(key)
    if (known === undefined) places.set(key, [diagnostic])
    else known.push(diagnostic)
  }
  return [...places.values()].flatMap(together)
}

/** Copies of a step say the same of one place; each sentence is told once. */
function together(diagnostics: readonly Diagnostic[]): readonly Diagnostic[] {
  const [first] = diagnostics
  if (first === undefined || diagnostics.length === 1) return diagnostics
  const related = new Map(
    diagnostics.flatMap((one) =>
      one.related.map(
        (other) => [`${other.place.start.line}:${other.place.start.column} ${other.note}`, other] as const
      )
    )
  )
  return [
    {
      ...first,
      what: unique(diagnostics.map(({ what }) => what)).join(' '),
      mend: unique(diagnostics.map(({ mend }) => mend)).join(' '),
      related: [...related.values()],
      path: diagnostics.find(({ path }) => path.length > 0)?.path ?? []
    }
  ]
}

function byPlace(one: Diagnostic, other: Diagnostic): number {
  return (
    one.place.start.line - other.place.start.line ||
    one.place.start.column - other.place.start.column ||
    (one.id < other.id ? -1 : one.id > other.id ? 1 : 0)
  )
}

function isNonEmpty(list: readonly Diagnostic[]): list is NonEmpty<Diagnostic> {
  return list.length > 0
}
