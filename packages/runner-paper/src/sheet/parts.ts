import type { Content, SectionId } from '@lockwright/language'
import type { Machine } from '@lockwright/machine'
import type { SheetHeading, SheetPart, SheetStep } from './sheet.js'

/**
 * Cuts the steps where the heading that they stand under changes; outer headings, and those of sections without a
 * step, open with the first step behind them.
 */
export function partsOf(machine: Machine, steps: readonly SheetStep[]): readonly SheetPart[] {
  const parts: { headings: readonly SheetHeading[]; steps: SheetStep[] }[] = []
  const opened: Opened = new Map()
  const bare = sectionsWithoutSteps(machine)
  let last: string | null = null
  for (const step of steps) {
    const { id } = step.state
    const section = step.state.section ?? closingSection(machine, step, bare, opened)
    const place = `${copyOf(id)} ${section ?? ''}`
    const part = parts.at(-1)
    // Prose that stands by itself has no section of its own: it stays where it stands.
    if (part !== undefined && (section === null || place === last)) {
      part.steps.push(step)
      continue
    }
    last = place
    const headings = section === null ? [] : headingsFor(machine, section, copyOf(id), opened, bare)
    const shared = share(machine, headings, step)
    parts.push({ headings: shared.headings, steps: [{ ...step, intro: shared.intro }] })
  }
  return parts
}

/** The copy that a state belongs to: what stands before the last slash of its id. */
function copyOf(id: string): string {
  return id.slice(0, id.lastIndexOf('/') + 1)
}

function sectionsWithoutSteps({ sections, states }: Machine): ReadonlySet<SectionId> {
  const filled = (section: SectionId): boolean =>
    states.some((state) => state.section === section || state.id.startsWith(`${section}.`))
  return new Set(sections.flatMap(({ id }) => (filled(id) ? [] : [id])))
}

/** Prose at the very end is read before the finish: where it has a heading, that heading is not lost. */
function closingSection(
  { sections }: Machine,
  { state }: SheetStep,
  bare: ReadonlySet<SectionId>,
  opened: Opened
): SectionId | null {
  const last = sections.at(-1)?.id
  return state.kind === 'finish' && last !== undefined && bare.has(last) && !opened.has(last) ? last : null
}

/** Each section that was opened, with the copies in which it was. */
type Opened = Map<SectionId, Set<string>>

function headingsFor(
  machine: Machine,
  section: SectionId,
  copy: string,
  opened: Opened,
  bare: ReadonlySet<SectionId>
): readonly SheetHeading[] {
  const headings: SheetHeading[] = []
  let level = Number.POSITIVE_INFINITY
  const at = machine.sections.findIndex((each) => each.id === section)
  for (const { id, level: own, title } of machine.sections.slice(0, at + 1).reverse()) {
    const outer = own < level
    if (!outer && !(copy === '' && bare.has(id) && !opened.has(id))) continue
    if (outer) level = own
    const copies = opened.get(id) ?? new Set()
    const opens = copies.size === 0 ? 'first' : copies.has(copy) ? 'continued' : 'again'
    if (id === section || opens === 'first') headings.unshift({ id, level: own, title, opens, prose: [] })
    opened.set(id, copies.add(copy))
  }
  return headings
}

/**
 * The prose before a step under the headings that open there. The machine keeps it as one piece with the step, so
 * the lines between the headings tell which of them has any. Where that leaves it open, the prose stays with the step.
 */
function share(
  machine: Machine,
  headings: readonly SheetHeading[],
  { state, intro }: SheetStep
): { readonly headings: readonly SheetHeading[]; readonly intro: readonly Content[] } {
  const asItWas = { headings, intro }
  if (headings.length < 2 || intro.length === 0) return asItWas
  const spans = headings.map(({ id }) => machine.sections.find((section) => section.id === id)?.span ?? state.span)
  const withRoom = headings.filter((_, index) => {
    const next = spans[index + 1]?.line ?? state.span.line
    // A blank line behind a heading is no prose.
    return next - (spans[index]?.endLine ?? next) > 2
  })
  const [only] = withRoom
  if (only === undefined || (withRoom.length > 1 && intro.length > withRoom.length)) return asItWas
  const under = (heading: SheetHeading): readonly Content[] =>
    withRoom.length === 1 ? (heading === only ? intro : []) : intro.filter((_, index) => withRoom[index] === heading)
  const own = headings.at(-1)
  return {
    headings: headings.map((heading) => (heading === own ? heading : { ...heading, prose: under(heading) })),
    intro: own === undefined ? intro : under(own)
  }
}
