import { formatDiagnostic } from '@lockwright/proof'
import { type AnswersOutcome, type Ended, tellEnded } from '@lockwright/runner-terminal'
import { readInput } from './read-input.js'
import { sayNote } from './say.js'

/** Says how far the answers of a file went; null where one of them was refused. */
export function tellOutcome({ ended, faults, given, of, stands }: AnswersOutcome): Ended | null {
  for (const fault of faults) sayNote(formatDiagnostic(fault, readInput(fault.place.file).toString('utf8')))
  sayNote(`${given} of ${of} answers were taken; the run stands at ${stands.state} (${stands.title}).`)
  if (faults.length > 0) return null
  sayNote(tellEnded(ended))
  return ended
}
