import type { Block, Choice, Item, Procedure, SectionId, Step, StepId } from '@lockwright/language'
import { plainText } from '@lockwright/language'
import type { StateId } from '../ids.js'
import type { Exit, Span, State, StateBase } from '../state.js'
import type { Context } from './context.js'
import { spanOf } from './declarations.js'
import { gatherInputs } from './inputs.js'
import { stateOfStep } from './state.js'

export function choiceBase(choice: Choice, id: StateId): StateBase {
  return {
    ...bareState(id, choice.id, choice.section, spanOf(choice.place)),
    title: choiceTitle(choice),
    intro: choice.intro
  }
}

/** A state that shows, asks and does nothing yet. */
function bareState(id: StateId, step: StepId, section: SectionId | null, span: Span): StateBase {
  return {
    id,
    step,
    section,
    span,
    title: '',
    intro: [],
    notices: [],
    body: [],
    role: null,
    wear: [],
    minutes: null,
    items: [],
    inputs: [],
    things: [],
    turns: [],
    exits: []
  }
}

function choiceTitle(choice: Choice): string {
  switch (choice.kind) {
    case 'by':
      return `By the ${choice.axis}`
    case 'only':
      return `For ${choice.values.join(', ')} only`
    case 'ask':
      return plainText(choice.question)
    case 'within':
      return `Within ${choice.seconds} s`
    case 'back':
      return `Go back to ${choice.to}`
    case 'repeat':
      return `Do ${choice.of} again`
    case 'remedies':
      return 'Try the remedies in order'
  }
}

export function curedState(
  choice: Extract<Choice, { kind: 'remedies' }>,
  id: StateId,
  yes: StateId,
  no: StateId,
  lates: readonly Exit[]
): State {
  const answer = (number: number, label: string, to: StateId): Exit => ({
    on: 'answer',
    answer: `answer-${number}`,
    label,
    says: [],
    to
  })
  return {
    ...choiceBase(choice, id),
    kind: 'ask',
    title: choice.cured,
    question: choice.cured,
    intro: [],
    exits: [answer(1, 'Yes', yes), answer(2, 'No', no), ...lates]
  }
}

/** Prose with nothing behind it in its branch, read like a step. */
export function readingState(
  id: StateId,
  { place, content }: Pick<Extract<Block, { kind: 'closing' }>, 'place' | 'content'>,
  exits: readonly Exit[]
): State {
  return {
    ...bareState(id, id as string as StepId, null, spanOf(place)),
    kind: 'notice',
    title: 'Read before going on',
    intro: content,
    exits
  }
}

export function gatherState(
  id: StateId,
  block: Extract<Block, { kind: 'gather' }>,
  items: readonly Item[],
  next: StateId
): State {
  return {
    ...bareState(id, id as string as StepId, block.section, spanOf(block.place)),
    kind: 'gather',
    title: 'Gather the tools, parts and protective equipment',
    intro: block.intro,
    inputs: gatherInputs(items),
    exits: [{ on: 'done', to: next }]
  }
}

export function finishState({ end, body }: Procedure, context: Context): State {
  const last = body.at(-1)
  const finish: Step = {
    kind: 'finish',
    id: 'end.finish' as StepId,
    named: false,
    section: last === undefined || last.kind === 'closing' ? null : last.kind === 'heading' ? last.id : last.section,
    place: end,
    whole: end,
    intro: last?.kind === 'closing' ? last.content : [],
    notices: [],
    body: [],
    wear: [],
    items: []
  }
  return stateOfStep(finish, 'end.finish' as StateId, [], context)
}
