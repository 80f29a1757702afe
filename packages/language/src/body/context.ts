import type { Position } from 'unist'
import type { Faults } from '../faults.js'
import type { FrontMatter } from '../front-matter.js'
import type { SectionId, StepId } from '../ids.js'
import type { Names } from '../names.js'
import type { Place } from '../place.js'
import { LIMITS } from '../scan/limits.js'
import type { Scan } from '../scan/scan-source.js'
import type { SourceText } from '../source-text.js'

/** What every reader of the body needs, and the counting that goes on from one to the next. */
export class BodyContext {
  readonly source: SourceText
  readonly faults: Faults
  readonly names: Names
  readonly head: FrontMatter
  readonly scan: Scan
  /** The section that the reader is in. */
  section: SectionId | null = null
  /** Whether some step is hands-on work. */
  anyWork = false
  private readonly counts = new Map<string, number>()
  private steps = 0

  /** Whether there are more steps than are looked at together. */
  get tooManySteps(): boolean {
    return this.steps > LIMITS.steps
  }

  constructor(source: SourceText, faults: Faults, names: Names, head: FrontMatter, scan: Scan) {
    this.source = source
    this.faults = faults
    this.names = names
    this.head = head
    this.scan = scan
  }

  place(position: Position | undefined): Place {
    if (position === undefined) throw new Error('A node of the parser has no position.')
    return { file: this.source.file, start: pointOf(position.start), end: pointOf(position.end) }
  }

  /** The id of the next step or choice: its section and its number there, in the order of the file. */
  countStep(place: Place): StepId {
    this.steps += 1
    if (this.steps === LIMITS.steps + 1) {
      this.faults.add(
        'too-many-steps',
        place,
        `The procedure has more than ${LIMITS.steps.toLocaleString('en')} steps.`,
        'Split it into several procedures.'
      )
    }
    const section = this.section ?? 'start'
    const count = (this.counts.get(section) ?? 0) + 1
    this.counts.set(section, count)
    return `${section}.${count}` as StepId
  }
}

function pointOf({ line, column, offset = 0 }: Position['start']): Place['start'] {
  return { line, column, offset }
}
