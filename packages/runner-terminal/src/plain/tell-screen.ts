import { commandsNamed } from '../step/commands-named.js'
import type { Screen } from '../step/screen.js'
import { countdownLine } from '../text/countdown-line.js'

/** What was last told, so that nothing is repeated that still stands. */
export interface Told {
  readonly by: string
  readonly step: string
  readonly standing: readonly string[]
  readonly details: readonly string[]
}

export const toldNothing: Told = { by: '', step: '', standing: [], details: [] }

/**
 * The screen as plain lines, with the words of the full screen in its order; what was told before and still stands is
 * left out. `now`: RFC 3339, for what counts down.
 */
export function tellScreen(
  screen: Screen,
  before: Told,
  now: string
): { readonly lines: readonly string[]; readonly told: Told } {
  const { step: place, about } = screen.way
  const where = `${screen.section === null ? '' : `${screen.section}, `}step ${place} of about ${about}`
  const step = stepLines(screen)
  const standing = standingLines(screen)
  const details = detailLines(screen)
  const by = `by ${screen.person}`
  const told: Told = { by, step: [where, ...step].join('\n'), standing, details }
  const stays = told.step === before.step
  return {
    lines: [
      ...(by === before.by ? [] : [by]),
      ...(stays ? [] : ['', where]),
      ...standing.filter((line) => !before.standing.includes(line)),
      ...screen.countdowns.map((countdown) => countdownLine(countdown, now)),
      ...(stays ? [] : step),
      ...details.filter((line) => !stays || !before.details.includes(line)),
      ...(before === toldNothing && screen.commands ? [`Also: ${commandsNamed.join(', ')}`] : []),
      screen.question,
      ...screen.keys.map(({ type, does }) => `  type ${type}: ${does}`)
    ],
    told
  }
}

/** Which procedure, in which mode, and on what. */
export function tellHeading(screen: Screen): readonly string[] {
  return [screen.procedure, ...(screen.mode === null ? [] : [screen.mode]), screen.equipment]
}

function stepLines({ title, notices, body }: Screen): readonly string[] {
  return [
    ...notices.flatMap(({ word, label, body: lines }) => [`${word}${label === '' ? '' : `: ${label}`}`, ...lines]),
    title,
    ...body
  ]
}

function detailLines({ boxes, answered, decays, guide }: Screen): readonly string[] {
  return [
    ...boxes.map(({ number, text, ticked }) => `  ${number}. ${ticked ? '[x]' : '[ ]'} ${text}`),
    ...answered.map((line) => `  ${line}`),
    ...decays.flatMap(({ says }) => says),
    ...guide
  ]
}

/** What is told once and then whenever it changes. */
function standingLines({ energies, locks, crew, warnings }: Screen): readonly string[] {
  return [
    `Sources: ${energies.map(({ source, word, more }) => `${source} ${word}${more === '' ? '' : ` (${more})`}`).join('; ')}`,
    `Locks: ${locks.length === 0 ? 'none' : locks.join('; ')}`,
    `Under the lockout: ${crew.length === 0 ? 'nobody' : crew.join(', ')}`,
    ...warnings
  ]
}
