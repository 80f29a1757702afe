import { type Content, plainText, type Step } from '@lockwright/language'
import { plainContent } from './inputs.js'

/** `a`, `a and b`, `a, b and c`. */
function list(names: readonly string[]): string {
  if (names.length < 2) return names.join('')
  return `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`
}

function clip(text: string, length: number): string {
  const line = text.replace(/\s+/g, ' ').trim()
  return line.length <= length ? line : `${line.slice(0, length - 1).trimEnd()}…`
}

/** Prose as one line; the items of a list are parts of one sentence, so their full stops go. */
function toldInOne(body: readonly Content[]): string {
  const told = body.map((content) =>
    content.kind === 'list' && content.items.length > 1
      ? content.items.map((item) => plainContent(item).replace(/\.$/, '')).join('; ')
      : plainContent([content])
  )
  return told.filter((text) => text !== '').join(' ')
}

/** The step as one plain line: what it is, and on what. */
export function titleOf(step: Step): string {
  switch (step.kind) {
    case 'notify':
      return withLabel('Tell', plainText(step.label), 'Tell the people affected')
    case 'operate':
      return withLabel('Operate:', plainText(step.label), 'Operate by the normal controls')
    case 'look':
      return withLabel('Look:', plainText(step.label), 'Look, hands off')
    case 'live':
      return withLabel('Test with power on:', plainText(step.label), `Test with power on near ${list(step.near)}`)
    case 'shutdown':
      return withLabel('Shut down:', plainText(step.label), 'Shut down by the normal controls')
    case 'identify':
      return `Identify the ${step.axis}`
    case 'isolate':
      return `Put ${list(step.at)} in the safe position`
    case 'lock':
      return `Lock ${list(step.at)}`
    case 'relieve':
      return `Let the energy out of ${list(step.of)}`
    case 'restrain':
      return `Put on ${list(step.restraints)}`
    case 'lamp':
      return `Look at the lamp of ${list(step.of)}: ${step.expect}`
    case 'prove':
      return step.by === 'trial' ? `Prove ${list(step.of)} dead by trial` : `Prove ${list(step.of)} dead`
    case 'tryout':
      return withLabel('Try to start:', plainText(step.label), 'Try the start control, then back to off')
    case 'signoff':
      return withLabel('Sign:', plainText(step.label), `Sign as ${step.role}`)
    case 'work':
      return `Work: ${clip(toldInOne(step.body), 70) || 'hands on'}`
    case 'measure':
      return withLabel('Measure', plainText(step.label), 'Measure')
    case 'wait':
      return withLabel('Wait:', plainText(step.label), 'Wait')
    case 'inspect':
      return withLabel('Inspect:', plainText(step.label), 'Inspect: tools out, guards back')
    case 'clear':
      return withLabel('Clear:', plainText(step.label), 'Clear everybody from the machine')
    case 'remove':
      return `Take off ${list(step.restraints)}`
    case 'unlock':
      return `Unlock ${list(step.at)}`
    case 'energize':
      return `Switch on ${list(step.at)}`
    case 'stop':
      return withLabel('Stop:', plainText(step.label), 'Stop work here')
    case 'finish':
      return 'Return to service'
  }
}

function withLabel(before: string, label: string, without: string): string {
  return label === '' ? without : `${before} ${label.replace(/\s+/g, ' ').trim()}`
}
