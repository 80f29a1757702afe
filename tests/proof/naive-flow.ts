import type { Block, Branch, Choice, Procedure, SectionId, Step } from '@lockwright/language'

/**
 * The flow of a procedure, read a second time from the meaning page alone and straight off the text: where every step
 * leads is worked out only when somebody asks, nothing is copied, and no state is made. Prose, notices and the gathering
 * are left out.
 */
export interface Node {
  /** Names the place and the copies that it stands in; two places have two keys. */
  readonly key: string
  readonly kind: string
  /** The step or choice as written; null for the question behind a remedy and for the implied finish. */
  readonly step: string | null
  /** By what happens, where that leads. */
  readonly leads: Readonly<Record<string, Place>>
}

/** Somewhere to go to. */
export type Place = () => Node

type Written = Step | Choice

/** What is true of all blocks of one body. */
interface Around {
  /** Tells the copies apart. */
  readonly copy: string
  /** What a `back` finds first: the blocks of this copy and where they begin; then those of the copy around it. */
  readonly own: { readonly blocks: readonly Block[]; readonly begin: Begin; readonly outer: Around | null }
  /** Where each running clock sends whoever is late. */
  readonly lates: readonly Place[]
}

/** The blocks from `index` on. */
type Begin = (index: number) => Place

export function flowAsWritten({ body, head }: Procedure): Place {
  const axisValues = (axis: string): readonly string[] =>
    head.axes.find(({ id }) => id === axis)?.values.map(({ id }) => id) ?? []

  const finish: Place = () => ({ key: 'finish', kind: 'finish', step: null, leads: {} })

  const follow = (blocks: readonly Block[], index: number, after: Place, around: Around): Place => {
    const block = blocks[index]
    if (block === undefined) return after
    const next = follow(blocks, index + 1, after, around)
    return block.kind === 'heading' || block.kind === 'gather' || block.kind === 'closing'
      ? next
      : written(block, next, around)
  }

  const inside = ({ body: blocks }: Branch, after: Place, around: Around): Place => follow(blocks, 0, after, around)

  /** The whole section once more; a `back` in it looks in it first. */
  const again = (section: SectionId, copy: string, after: Place, around: Around): Place => {
    const at = body.findIndex((block) => block.kind === 'heading' && block.id === section)
    const level = body[at]?.kind === 'heading' ? body[at].level : 0
    const rest = body.slice(at + 1)
    const end = rest.findIndex((block) => block.kind === 'heading' && block.level <= level)
    const blocks = end === -1 ? rest : rest.slice(0, end)
    const begin: Begin = (index) => follow(blocks, index, after, here)
    const here: Around = { copy, own: { blocks, begin, outer: around }, lates: around.lates }
    return begin(0)
  }

  const backTo = (id: string, { own }: Around): Place => {
    const index = own.blocks.findIndex((block) => 'id' in block && block.kind !== 'heading' && block.id === id)
    if (index >= 0) return own.begin(index)
    if (own.outer === null) throw new Error(`the naive flow finds no step ${id} beside or around the way back`)
    return backTo(id, own.outer)
  }

  const written = (block: Written, next: Place, around: Around): Place => {
    const key = `${around.copy}${block.id}`
    const late = Object.fromEntries(around.lates.map((place, index) => [`late ${index}`, place]))
    const node = (kind: string, leads: Node['leads']): Place => {
      return () => ({ key, kind, step: block.id, leads })
    }
    switch (block.kind) {
      case 'stop':
      case 'finish':
        return node(block.kind, {})
      case 'identify':
        return node(block.kind, {
          ...Object.fromEntries(axisValues(block.axis).map((value) => [`identified ${value}`, next])),
          ...late
        })
      case 'measure': {
        const here: Place = () => written(block, next, around)()
        if (block.min === undefined && block.max === undefined) return node(block.kind, { inside: next, ...late })
        const outside = block.outside === undefined ? {} : { outside: inside(block.outside, next, around) }
        return node(block.kind, { inside: next, again: here, ...outside, ...late })
      }
      case 'by':
        return node(
          'branch',
          Object.fromEntries(
            block.whens.flatMap((when) =>
              when.values.map((value) => [`value ${value}`, inside(when, next, around)] as const)
            )
          )
        )
      case 'only':
        return node(
          'branch',
          Object.fromEntries(
            axisValues(block.axis).map((value) => [
              `value ${value}`,
              block.values.some((own) => own === value) ? inside(block.branch, next, around) : next
            ])
          )
        )
      case 'ask':
        return node('ask', {
          ...Object.fromEntries(
            block.answers.map((answer, index) => [`answer-${index + 1}`, inside(answer, next, around)] as const)
          ),
          ...late
        })
      case 'within': {
        const tooLate = inside(block.late, next, around)
        const begin = inside(block.branch, next, { ...around, lates: [...around.lates, tooLate] })
        return node('timer', { done: begin })
      }
      case 'back':
        return node('back', { done: () => backTo(block.to, around)() })
      case 'repeat':
        return again(block.of, `${key} > `, next, around)
      case 'remedies':
        return remedy(block, 0, next, around, late)
      default:
        return node(block.kind, { done: next, ...late })
    }
  }

  /** The remedy, the test, the question; if it was not cured, the lockout again and whatever comes after it. */
  const remedy = (
    block: Extract<Choice, { kind: 'remedies' }>,
    index: number,
    next: Place,
    around: Around,
    late: Node['leads']
  ): Place => {
    const own = block.remedies[index]
    if (own === undefined) return inside(block.otherwise, next, around)
    const key = `${around.copy}${block.id} ${index}`
    const otherwise = remedy(block, index + 1, next, around, late)
    const relock = again(block.relock, `${key} locked > `, otherwise, around)
    const cured: Place = () => ({
      key,
      kind: 'ask',
      step: null,
      leads: { 'answer-1': next, 'answer-2': relock, ...late }
    })
    return inside(own, again(block.retest, `${key} tested > `, cured, around), around)
  }

  const begin: Begin = (index) => follow(body, index, finish, whole)
  const whole: Around = { copy: '', own: { blocks: body, begin, outer: null }, lates: [] }
  return begin(0)
}
