import { type Block, branchesOf, type Choice, type Diagnostic, type Procedure, plainText } from '@lockwright/language'
import type { Machine } from '@lockwright/machine'
import { isOrAre, joined, quoted } from '../vocabulary.js'
import { bestOrder, type RemedyFacts, type RemedyOrder, writtenOrder } from './remedy-order.js'
import { type Duration, sectionBody, sectionMinutes } from './section-minutes.js'

type Ladder = Extract<Choice, { kind: 'remedies' }>
type Remedy = Ladder['remedies'][number]

/** Less than this is no reason to change a procedure. */
const leastSaving = 0.1

const harmless =
  'No rule is broken. But each remedy that does not cure costs a re-test and a lockout again, and each of them is one more chance of a slip.'

/** What can be said of the order of every ladder of remedies; nothing of one whose order the author fixed. */
export function remedyAdvice(procedure: Procedure, machine: Machine): readonly Diagnostic[] {
  return laddersIn(procedure.body).flatMap((ladder) => (ladder.fixedOrder ? [] : adviceOn(ladder, procedure, machine)))
}

function adviceOn(ladder: Ladder, procedure: Procedure, machine: Machine): readonly Diagnostic[] {
  const { remedies } = ladder
  if (remedies.length < 2) return []
  const missing = remedies.flatMap((remedy) => missingIn(remedy))
  if (missing.length > 0) return anyGiven(remedies) ? [factsMissing(ladder, missing)] : []
  const total = remedies.reduce((sum, { chance = 0 }) => sum + chance, 0)
  if (total > 1 + Number.EPSILON * remedies.length) return [tooLikely(ladder, total)]
  const facts = remedies.map(
    (remedy): RemedyFacts => ({
      chance: remedy.chance ?? 0,
      minutes: remedy.minutes ?? 0,
      live: needsPower(remedy.body, procedure)
    })
  )
  const retest = sectionMinutes(procedure, machine, ladder.retest)
  const relock = sectionMinutes(procedure, machine, ladder.relock)
  const shared = { retest: retest.minutes, relock: relock.minutes }
  const written = writtenOrder(facts, shared)
  const best = bestOrder(facts, shared)
  if (written.minutes - best.minutes < leastSaving) return []
  return [betterOrder(ladder, facts, written, best, retest, relock)]
}

function missingIn(remedy: Remedy): readonly string[] {
  const lacks = [
    ...(remedy.chance === undefined ? ['`chance`'] : []),
    ...(remedy.minutes === undefined ? ['`minutes`'] : [])
  ]
  return lacks.length === 0 ? [] : [`\`${plainText(remedy.label)}\` has no ${joined(lacks)}`]
}

function anyGiven(remedies: readonly Remedy[]): boolean {
  return remedies.some(({ chance, minutes }) => chance !== undefined || minutes !== undefined)
}

/** Whether a step of the remedy is done with power on: a live test, or a reading taken by hand under a permit. */
function needsPower(blocks: readonly Block[], procedure: Procedure): boolean {
  return blocks.some((block) => {
    if (block.kind === 'live') return true
    if (block.kind === 'measure' && block.near.length > 0 && block.permits.length > 0) return true
    if (block.kind === 'repeat') return needsPower(sectionBody(procedure, block.of), procedure)
    return branchesOf(block).some(({ body }) => needsPower(body, procedure))
  })
}

function laddersIn(blocks: readonly Block[]): readonly Ladder[] {
  return blocks.flatMap((block) => [
    ...(block.kind === 'remedies' ? [block] : []),
    ...branchesOf(block).flatMap(({ body }) => laddersIn(body))
  ])
}

function minutesText(minutes: number): string {
  return `${Number(minutes.toFixed(1))} min`
}

function betterOrder(
  ladder: Ladder,
  facts: readonly RemedyFacts[],
  written: RemedyOrder,
  best: RemedyOrder,
  retest: Duration,
  relock: Duration
): Diagnostic {
  const names = best.order.map((index) => labelOf(ladder, index))
  const untimed = retest.untimed + relock.untimed
  const uncounted =
    untimed === 0
      ? ''
      : ` ${untimed} ${untimed === 1 ? 'step' : 'steps'} of these sections ${untimed === 1 ? 'gives' : 'give'} no \`minutes\` and ${untimed === 1 ? 'counts' : 'count'} as nothing.`
  const live = ladder.remedies.flatMap((_, index) => (facts[index]?.live === true ? [labelOf(ladder, index)] : []))
  const held =
    live.length === 0
      ? ''
      : ` ${quoted(live)} ${live.length === 1 ? 'needs' : 'need'} power on and ${isOrAre(live)} not moved forward for that reason.`
  return {
    ...adviceAt(ladder, 'remedy-order'),
    what: `In the order written the remedies are expected to take ${minutesText(written.minutes)}; tried as ${quoted(names)}, ${minutesText(best.minutes)}.`,
    mend: `If nothing speaks against it, write them in that order; if the order has a reason, write \`order=fixed\`. With each remedy ${minutesText(retest.minutes)} for the re-test are counted, and ${minutesText(relock.minutes)} for the lockout again where it did not cure.${uncounted}${held}`,
    related: ladder.remedies.map(({ place, chance, minutes }, index) => ({
      place,
      note: `\`${labelOf(ladder, index)}\`: chance ${chance ?? 0} in ${minutesText(minutes ?? 0)} of its own.`
    }))
  }
}

function factsMissing(ladder: Ladder, missing: readonly string[]): Diagnostic {
  return {
    ...adviceAt(ladder, 'remedy-facts'),
    what: `Whether this is the quickest order of the remedies cannot be told: ${joined(missing)}.`,
    mend: 'Give every remedy a `chance` and its `minutes`, or none of them; if the order has a reason, write `order=fixed`.'
  }
}

function tooLikely(ladder: Ladder, total: number): Diagnostic {
  return {
    ...adviceAt(ladder, 'remedy-chances'),
    what: `The chances of the remedies add up to ${Number(total.toFixed(3))}: of one fault that is cured by one of them they add up to 1 at most, so no order can be advised.`,
    mend: 'Give for each remedy how often it is the one that cures, out of all the times that the fault comes up.'
  }
}

function labelOf({ remedies }: Ladder, index: number): string {
  const remedy = remedies[index]
  if (remedy === undefined) throw new Error('the order names a remedy that is not there')
  return plainText(remedy.label)
}

function adviceAt(ladder: Ladder, id: string): Omit<Diagnostic, 'what' | 'mend'> {
  return { id, severity: 'advice', place: ladder.place, danger: harmless, related: [], path: [] }
}
