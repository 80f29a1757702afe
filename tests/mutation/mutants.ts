import { type Block, branchesOf, type Choice, DIRECTIVES, type Procedure, type Step } from '@lockwright/language'

/** A procedure with one thing wrong with it. */
export interface Mutant {
  /** What was done and where: `delete lock-out.3`, `swap lock-out.3 lock-out.4`, `drop V1 from at of lock-out.4`. */
  readonly name: string
  /** The line or lines that it was done to, as they stand in the procedure. */
  readonly of: string
  readonly text: string
}

type StepOrChoice = Step | Choice

/** Every single deletion of a step or choice, every swap of neighbours, and every id taken out of what names it. */
export function mutantsOf(text: string, procedure: Procedure): readonly Mutant[] {
  const bodies = [...bodiesIn(procedure.body)]
  const all = [
    ...deletions(text, bodies),
    ...swaps(text, bodies),
    ...droppedIds(text, bodies.flat()),
    ...undeclared(text)
  ]
  // Two like steps beside each other give no other procedure when they are swapped.
  return all.filter((mutant) => mutant.text !== text)
}

/** Each body's own steps and choices in order, headings left out: the last step of a section is a neighbour too. */
function* bodiesIn(body: readonly Block[]): Iterable<readonly StepOrChoice[]> {
  const own = body.flatMap((block) =>
    block.kind === 'heading' || block.kind === 'gather' || block.kind === 'closing' ? [] : [block]
  )
  yield own
  for (const block of own) for (const branch of branchesOf(block)) yield* bodiesIn(branch.body)
}

/** The block's lines, from its first up to its last. */
function linesOf(lines: readonly string[], { whole }: StepOrChoice): readonly string[] {
  return lines.slice(whole.start.line - 1, whole.end.line)
}

function firstLine(lines: readonly string[], block: StepOrChoice): string {
  return lines[block.whole.start.line - 1] ?? ''
}

function deletions(text: string, bodies: readonly (readonly StepOrChoice[])[]): readonly Mutant[] {
  const lines = text.split('\n')
  return bodies.flat().map((block) => ({
    name: `delete ${block.id}`,
    of: firstLine(lines, block),
    // The lines stay, empty: what stands below keeps its place.
    text: lines.map((line, index) => (within(index + 1, block) ? '' : line)).join('\n')
  }))
}

function within(line: number, { whole }: StepOrChoice): boolean {
  return whole.start.line <= line && line <= whole.end.line
}

function swaps(text: string, bodies: readonly (readonly StepOrChoice[])[]): readonly Mutant[] {
  const lines = text.split('\n')
  return bodies.flatMap((body) =>
    body.slice(1).flatMap((second, index): readonly Mutant[] => {
      const first = body[index]
      if (first === undefined) return []
      return [
        {
          name: `swap ${first.id} ${second.id}`,
          of: `${firstLine(lines, first)} / ${firstLine(lines, second)}`,
          text: [
            ...lines.slice(0, first.whole.start.line - 1),
            ...linesOf(lines, second),
            ...lines.slice(first.whole.end.line, second.whole.start.line - 1),
            ...linesOf(lines, first),
            ...lines.slice(second.whole.end.line)
          ].join('\n')
        }
      ]
    })
  )
}

const namesIds = new Set<unknown>([
  'points',
  'sources',
  'restraints',
  'equipment',
  'parts',
  'protection',
  'role',
  'axis',
  'axis-values',
  'step',
  'sign-offs',
  'section'
])
const idAttributes = new Map(
  DIRECTIVES.map(({ name, attributes }) => [
    name,
    new Set(attributes.filter(({ value }) => namesIds.has(value)).map((attribute) => attribute.name))
  ])
)

/** Each id that a directive names in an attribute, taken out; the attribute too where it was the only one. */
function droppedIds(text: string, blocks: readonly StepOrChoice[]): readonly Mutant[] {
  const lines = text.split('\n')
  return lines.flatMap((line, index) => {
    const directive = /^:{2,}([a-z]+)/.exec(line)?.[1]
    if (directive === undefined) return []
    const where = placeIn(blocks, index + 1, directive)
    return [...line.matchAll(/ ?([a-z-]+)=("[^"]*"|[^\s"}]+)/g)].flatMap((match) => {
      const [whole, attribute = '', value = ''] = match
      if (idAttributes.get(directive)?.has(attribute) !== true) return []
      const ids = value.replaceAll('"', '').split(' ')
      return ids.map((id): Mutant => {
        const left = ids.filter((other) => other !== id)
        const instead = left.length === 0 ? '' : whole.replace(value, `"${left.join(' ')}"`)
        const changed = line.slice(0, match.index) + instead + line.slice(match.index + whole.length)
        return {
          name: `drop ${id} from ${attribute} of ${where}`,
          of: line,
          text: lines.with(index, changed.replace('{ ', '{')).join('\n')
        }
      })
    })
  })
}

/** The step or choice whose first line it is; of a branch, the choice that it belongs to and the branch's own word. */
function placeIn(blocks: readonly StepOrChoice[], line: number, directive: string): string {
  const own = blocks.find(({ whole }) => whole.start.line === line)
  if (own !== undefined) return own.id
  const around = blocks.filter((block) => within(line, block)).at(-1)
  return around === undefined ? directive : `${around.id}, ${directive} at ${line - around.whole.start.line}`
}

/** Each name taken out of a list of the front matter: a device, a feeder, what a restraint holds, a conductor. */
function undeclared(text: string): readonly Mutant[] {
  const lines = text.split('\n')
  const end = lines.indexOf('---', 1)
  return lines.slice(0, end).flatMap((line, index) => {
    const owner = /^ {2}([\w+-]+):/.exec(
      lines.slice(0, index + 1).findLast((one) => /^ {2}[\w+-]+:/.test(one)) ?? ''
    )?.[1]
    return [...line.matchAll(/([a-z-]+): \[([^\]]*)\](, )?/g)].flatMap((match) => {
      const [whole, key = '', list = '', comma = ''] = match
      const names = list.split(', ')
      return names.map((name): Mutant => {
        const left = names.filter((other) => other !== name)
        const instead = left.length === 0 ? '' : `${key}: [${left.join(', ')}]${comma}`
        const changed = line.slice(0, match.index) + instead + line.slice(match.index + whole.length)
        return {
          name: `drop ${name} from ${key} of ${owner}`,
          of: line.trim(),
          text: lines.with(index, changed.replace(/, \}/, ' }').replace(/^ +(#.*)?$/, '')).join('\n')
        }
      })
    })
  })
}
