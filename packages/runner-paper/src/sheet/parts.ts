import type { SectionId } from '@lockwright/language'
import type { Machine } from '@lockwright/machine'
import type { SheetHeading, SheetPart, SheetStep } from './sheet.js'

/** Cuts the steps where the heading that they stand under changes; outer headings open with their first step. */
export function partsOf(machine: Machine, steps: readonly SheetStep[]): readonly SheetPart[] {
  const parts: { headings: readonly SheetHeading[]; steps: SheetStep[] }[] = []
  const opened: Opened = new Map()
  let last: string | null = null
  for (const step of steps) {
    const { section, id } = step.state
    const place = `${copyOf(id)} ${section ?? ''}`
    const part = parts.at(-1)
    // Prose that stands by itself has no section of its own: it stays where it stands.
    if (part !== undefined && (section === null || place === last)) {
      part.steps.push(step)
      continue
    }
    last = place
    parts.push({ headings: section === null ? [] : headingsFor(machine, section, copyOf(id), opened), steps: [step] })
  }
  return parts
}

/** The copy that a state belongs to: what stands before the last slash of its id. */
function copyOf(id: string): string {
  return id.slice(0, id.lastIndexOf('/') + 1)
}

/** Each section that was opened, with the copies in which it was. */
type Opened = Map<SectionId, Set<string>>

function headingsFor(machine: Machine, section: SectionId, copy: string, opened: Opened): readonly SheetHeading[] {
  const headings: SheetHeading[] = []
  let level = Number.POSITIVE_INFINITY
  const at = machine.sections.findIndex((each) => each.id === section)
  for (const { id, level: own, title } of machine.sections.slice(0, at + 1).reverse()) {
    if (own >= level) continue
    level = own
    const copies = opened.get(id) ?? new Set()
    const opens = copies.size === 0 ? 'first' : copies.has(copy) ? 'continued' : 'again'
    if (id === section || opens === 'first') headings.unshift({ id, level: own, title, opens })
    opened.set(id, copies.add(copy))
  }
  return headings
}
