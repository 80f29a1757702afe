import { relieveTime, requiredWait, safeBelow } from '@lockwright/energy'
import {
  type Content,
  type FrontMatter,
  type Item,
  plainText,
  type Source,
  type SourceId,
  type Step
} from '@lockwright/language'
import type { Input, Limits } from '../state.js'

const noLimits: Limits = { min: null, max: null, below: null }

/** What the step asks the person for, in the order in which it is asked. */
export function inputsOf(step: Step, head: FrontMatter): readonly Input[] {
  const boxes = boxesOf(step.body)
  switch (step.kind) {
    case 'lock':
      return [...boxes, ...step.at.map((point): Input => ({ kind: 'lock', id: `lock-${point}`, point }))]
    case 'unlock':
      return [...boxes, ...step.at.map((point): Input => ({ kind: 'unlock', id: `unlock-${point}`, point }))]
    case 'relieve':
      return [...boxes, ...step.of.flatMap((of) => waitOf(sourceOf(head, of), step.wait))]
    case 'prove':
      return [...boxes, ...proofInputs(step, head)]
    case 'measure':
      return [
        ...boxes,
        {
          kind: 'reading',
          id: 'reading',
          label: plainText(step.label),
          unit: step.unit,
          limits: { min: step.min ?? null, max: step.max ?? null, below: null },
          source: null
        }
      ]
    case 'wait':
      return [...boxes, { kind: 'wait', id: 'wait', seconds: step.seconds, because: 'written', source: null }]
    case 'notify':
    case 'operate':
    case 'look':
    case 'live':
    case 'shutdown':
    case 'identify':
    case 'isolate':
    case 'restrain':
    case 'lamp':
    case 'tryout':
    case 'signoff':
    case 'work':
    case 'inspect':
    case 'clear':
    case 'remove':
    case 'energize':
    case 'stop':
    case 'finish':
      return boxes
  }
}

/** One box for each item to gather. */
export function gatherInputs(items: readonly Item[]): readonly Input[] {
  return items.map((item) => ({
    kind: 'box',
    id: `have-${item.id}`,
    of: 'item',
    text: plainText(item.label),
    source: null
  }))
}

/** The items of the step's lists, top level alone, are its boxes. */
function boxesOf(body: readonly Content[]): readonly Input[] {
  const items = body.flatMap((content) => (content.kind === 'list' ? content.items : []))
  return items.map((item, index) => ({
    kind: 'box',
    id: `box-${index + 1}`,
    of: 'item',
    text: plainContent(item),
    source: null
  }))
}

/** Prose as one plain line. */
export function plainContent(content: readonly Content[]): string {
  return content
    .map((part) => {
      switch (part.kind) {
        case 'paragraph':
          return plainText(part.runs)
        case 'list':
          return part.items.map(plainContent).join('; ')
        case 'quote':
          return plainContent(part.content)
        case 'table':
          return [part.header, ...part.rows].map((row) => row.map(plainText).join(' | ')).join('; ')
        case 'code':
          return part.text
        case 'image':
          return part.alternate
        case 'rule':
          return ''
      }
    })
    .filter((text) => text !== '')
    .join(' ')
}

function sourceOf(head: FrontMatter, id: SourceId): Source {
  const source = head.sources.find((candidate) => candidate.id === id)
  if (source === undefined) throw new Error('the language resolves every source that a step names')
  return source
}

function waitOf(source: Source, written: Extract<Step, { kind: 'relieve' }>['wait']): readonly Input[] {
  const computed = relieveTime(source)
  const asked = requiredWait({
    ...(written === undefined ? {} : { written }),
    ...(source.quantities['label-wait'] === undefined ? {} : { label: source.quantities['label-wait'] }),
    computed
  })
  if (asked.because === 'none' || asked.seconds <= 0) return []
  return [
    {
      kind: 'wait',
      id: `wait-${source.id}`,
      seconds: Math.ceil(asked.seconds),
      because: asked.because,
      source: source.id
    }
  ]
}

function proofInputs(step: Extract<Step, { kind: 'prove' }>, head: FrontMatter): readonly Input[] {
  const sources = step.of.map((id) => sourceOf(head, id))
  if (step.by === 'trial') {
    return sources.map(({ id }) => ({ kind: 'box', id: `trial-${id}`, of: 'trial', text: id, source: id }))
  }
  const electrical = sources.filter(isElectricalKind)
  const others = sources.filter((source) => !isElectricalKind(source))
  const testerBox = (of: 'tester-before' | 'tester-after'): readonly Input[] =>
    electrical.length === 0 ? [] : [{ kind: 'box', id: of, of, text: step.known ?? '', source: null }]
  return [
    ...testerBox('tester-before'),
    ...electrical.flatMap(conductorReadings),
    ...testerBox('tester-after'),
    ...others.map((source): Input => {
      const limit = safeBelow(source)
      return {
        kind: 'reading',
        id: `reading-${source.id}`,
        label: source.id,
        unit: limit?.unit ?? '',
        limits: limit === undefined ? noLimits : { ...noLimits, below: limit.value },
        source: source.id
      }
    })
  ]
}

function isElectricalKind({ kind }: Source): boolean {
  return kind === 'electrical' || kind === 'capacitor' || kind === 'battery'
}

/** Every pair of conductors and every conductor to earth; one reading over all where the conductors are unknown. */
function conductorReadings(source: Source): readonly Input[] {
  const limit = safeBelow(source)
  const unit = limit?.unit ?? 'V'
  const limits: Limits = { ...noLimits, below: limit?.value ?? 50 }
  const pairs = source.conductors.flatMap((first, index) =>
    [...source.conductors.slice(index + 1), 'earth'].map((second) => [first, second] as const)
  )
  if (pairs.length === 0) {
    return [{ kind: 'reading', id: `reading-${source.id}`, label: source.id, unit, limits, source: source.id }]
  }
  return pairs.map(([first, second]) => ({
    kind: 'reading',
    id: `reading-${source.id}-${first}-${second}`,
    label: `${source.id}: ${first} to ${second}`,
    unit,
    limits,
    source: source.id
  }))
}
