import { type Block, branchesOf, type SectionId, type StepId } from '@lockwright/language'

/** Each section's blocks: from behind its heading to the next of the same or a higher level. */
export function sectionsOf(body: readonly Block[]): ReadonlyMap<SectionId, readonly Block[]> {
  const sections = new Map<SectionId, readonly Block[]>()
  body.forEach((block, index) => {
    if (block.kind !== 'heading') return
    const length = body.slice(index + 1).findIndex((other) => other.kind === 'heading' && other.level <= block.level)
    sections.set(block.id, length === -1 ? body.slice(index + 1) : body.slice(index + 1, index + 1 + length))
  })
  return sections
}

/** Every step and choice in the blocks, at any depth. */
export function* stepsIn(blocks: readonly Block[]): Iterable<StepId> {
  for (const block of blocks) {
    if (block.kind === 'heading' || block.kind === 'gather' || block.kind === 'closing') continue
    yield block.id
    for (const inner of branchesOf(block)) yield* stepsIn(inner.body)
  }
}
