import { type Notice, plainText, type Step } from '@lockwright/language'
import type { Thing } from '../condition.js'
import type { PermitId, StateId } from '../ids.js'
import type { Exit, MachineNotice, State, StateBase } from '../state.js'
import type { Context } from './context.js'
import { permitsOf, spanOf } from './declarations.js'
import { inputsOf } from './inputs.js'
import { turnsOf } from './meaning.js'
import { titleOf } from './titles.js'

export function noticesOf(notices: readonly Notice[]): readonly MachineNotice[] {
  return notices.map((notice, index) => ({
    id: `notice-${index + 1}`,
    word: notice.word,
    label: plainText(notice.label),
    body: notice.body
  }))
}

/** The state that one step becomes, with the exits that the flow gives it. */
export function stateOfStep(step: Step, id: StateId, exits: readonly Exit[], context: Context): State {
  const base: StateBase = {
    id,
    step: step.id,
    section: step.section,
    span: spanOf(step.place),
    title: titleOf(step),
    intro: step.intro,
    notices: noticesOf(step.notices),
    body: step.body,
    role: step.role ?? null,
    wear: step.wear,
    minutes: step.minutes ?? null,
    items: step.items.map(({ id: item, place }) => ({ id: item, span: spanOf(place) })),
    inputs: inputsOf(step, context.head),
    things: thingsOf(step),
    turns: turnsOf(step, context),
    exits
  }
  switch (step.kind) {
    case 'notify':
    case 'operate':
    case 'shutdown':
    case 'tryout':
    case 'inspect':
    case 'clear':
    case 'finish':
      return { ...base, kind: step.kind }
    case 'look':
      return { ...base, kind: 'look', near: step.near }
    case 'live':
      return {
        ...base,
        kind: 'live',
        near: step.near,
        apart: step.apart,
        why: step.why ?? null,
        permits: permitsOf(step.permits)
      }
    case 'identify':
      return { ...base, kind: 'identify', axis: step.axis }
    case 'isolate':
    case 'lock':
    case 'unlock':
    case 'energize':
      return { ...base, kind: step.kind, points: step.at }
    case 'relieve':
      return { ...base, kind: 'relieve', sources: step.of, with: step.with, wait: step.wait ?? null }
    case 'restrain':
    case 'remove':
      return { ...base, kind: step.kind, restraints: step.restraints }
    case 'lamp':
      return { ...base, kind: 'lamp', sources: step.of, expect: step.expect }
    case 'prove':
      return { ...base, kind: 'prove', sources: step.of, with: step.with, known: step.known ?? null, by: step.by }
    case 'signoff':
      return {
        ...base,
        kind: 'signoff',
        role: step.role,
        meaning: plainText(step.label),
        permit: step.id as string as PermitId
      }
    case 'work':
      return {
        ...base,
        kind: 'work',
        leaves: step.leaves,
        why: step.why ?? null,
        permits: permitsOf(step.permits),
        with: step.with
      }
    case 'measure':
      return {
        ...base,
        kind: 'measure',
        unit: step.unit,
        from: step.from ?? null,
        near: step.near,
        apart: step.apart,
        with: step.with,
        why: step.why ?? null,
        permits: permitsOf(step.permits)
      }
    case 'wait':
      return { ...base, kind: 'wait', why: plainText(step.label) }
    case 'stop':
      return { ...base, kind: 'stop', reason: plainText(step.label), tell: step.tell ?? null }
  }
}

/** The things without any of which the step does nothing on this generation. */
function thingsOf(step: Step): readonly Thing[] {
  switch (step.kind) {
    case 'isolate':
    case 'lock':
    case 'unlock':
    case 'energize':
      return step.at.map((id) => ({ kind: 'point', id }))
    case 'relieve':
    case 'lamp':
    case 'prove':
      return step.of.map((id) => ({ kind: 'source', id }))
    case 'look':
    case 'live':
    case 'measure':
      return step.near.map((id) => ({ kind: 'source', id }))
    case 'restrain':
    case 'remove':
      return step.restraints.map((id) => ({ kind: 'restraint', id }))
    case 'notify':
    case 'operate':
    case 'shutdown':
    case 'tryout':
    case 'inspect':
    case 'clear':
    case 'identify':
    case 'signoff':
    case 'work':
    case 'wait':
    case 'stop':
    case 'finish':
      return []
  }
}
