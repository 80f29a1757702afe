import type { Screen } from '../step/screen.js'
import { clockTime } from '../text/clock-time.js'

/** What was last told, so that nothing is repeated that still stands. */
export interface Told {
  readonly step: string
  readonly sources: readonly string[]
  readonly person: string
  readonly details: readonly string[]
}

export const toldNothing: Told = { step: '', sources: [], person: '', details: [] }

/** The screen as plain lines, in the order of the screen; what was told before and still stands is left out. */
export function tellScreen(screen: Screen, before: Told): { readonly lines: readonly string[]; readonly told: Told } {
  const step = stepLines(screen)
  const sources = sourceLines(screen)
  const person = `Answers are recorded as given by ${screen.person}.`
  const details = detailLines(screen)
  const told = { step: step.join('\n'), sources, person, details }
  const stays = told.step === before.step
  return {
    lines: [
      ...(person === before.person ? [] : [person]),
      ...sources.filter((line) => !before.sources.includes(line)),
      ...(stays ? [] : ['', ...step]),
      ...details.filter((line) => !stays || !before.details.includes(line)),
      screen.question,
      ...screen.keys.map(({ type, does }) => `  type ${type}: ${does}`)
    ],
    told
  }
}

/** Which procedure, on what, and in which mode. */
export function tellHeading(screen: Screen): readonly string[] {
  return [
    screen.procedure,
    screen.equipment,
    ...(screen.mode === null ? [] : [`${screen.mode}: not for work on the real machine.`])
  ]
}

function stepLines({ section, title, way, notices, body }: Screen): readonly string[] {
  return [
    `${section === null ? '' : `${section}. `}Step ${way.step} of about ${way.about}: ${title}`,
    ...notices.flatMap(({ word, label, body: lines }) => [`${word}${label === '' ? '' : `: ${label}`}`, ...lines]),
    ...body
  ]
}

function detailLines({ boxes, answered, countdowns }: Screen): readonly string[] {
  return [
    ...boxes.map(({ number, text, ticked }) => `  ${number}. ${ticked ? '[x]' : '[ ]'} ${text}`),
    ...answered.map((line) => `  ${line}`),
    ...countdowns.map(({ what, until }) => `  ${what} ${clockTime(until)}`)
  ]
}

function sourceLines({ energies, locks, crew }: Screen): readonly string[] {
  return [
    `Sources: ${energies.map(({ source, word, more }) => `${source} ${word}${more === '' ? '' : ` (${more})`}`).join('; ')}`,
    `Locks: ${locks.length === 0 ? 'none' : locks.join('; ')}`,
    ...(crew.length === 0 ? [] : [`Under the lockout: ${crew.join(', ')}`])
  ]
}
