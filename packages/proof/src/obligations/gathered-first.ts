import type { Machine, MachineItem, Span } from '@lockwright/machine'
import type { Declared, Finding, Obligation } from '../obligation.js'

export const gatheredFirst: Obligation = {
  id: 'gathered-first',
  statement: 'what a step needs is gathered before locks are hung',
  sources: ['common practice'],
  danger: 'A tool that is missing halfway keeps the machine open and the locks on, and tempts people to make do.',
  waivable: true,
  check: { kind: 'declared', find }
}

function find(machine: Machine): Declared {
  const locks = machine.states.filter((state) => state.kind === 'lock').map((state) => state.span)
  const firstLock = locks.reduce<Span | null>(
    (first, span) => (first === null || comesBefore(span, first) ? span : first),
    null
  )
  const findings = new Map<string, Finding>()
  let arises = false
  for (const state of machine.states) {
    for (const named of state.items) {
      const item = machine.items.find((candidate) => candidate.id === named.id)
      if (item === undefined) continue
      arises = true
      const fault = faultOf(item, state.span, firstLock)
      // Copies of a section name the same item at the same place.
      if (fault !== null) findings.set(`${named.span.line}:${named.span.column}`, finding(item, named.span, fault))
    }
  }
  return { arises, findings: [...findings.values()].sort((one, other) => (comesBefore(one.span, other.span) ? -1 : 1)) }
}

function comesBefore(one: Span, other: Span): boolean {
  return one.line < other.line || (one.line === other.line && one.column < other.column)
}

function faultOf(item: MachineItem, step: Span, firstLock: Span | null): string | null {
  if (!comesBefore(item.span, step)) return `is listed only at line ${item.span.line}, after the step that needs it`
  if (firstLock !== null && !comesBefore(item.span, firstLock)) {
    return `is listed only at line ${item.span.line}, after the first lock at line ${firstLock.line}`
  }
  return null
}

function finding(item: MachineItem, span: Span, fault: string): Finding {
  return {
    span,
    what: `\`${item.id}\` ${fault}.`,
    mend: `Move the \`::${item.kind}\` line of \`${item.id}\` to the start of the procedure, before the first lock and before this step.`,
    related: [{ span: item.span, note: `\`${item.id}\` is listed here.` }]
  }
}
