import type { RootContent } from 'mdast'
import { type Content, plainText } from '../content.js'
import { quoted } from '../faults.js'
import type { SectionId } from '../ids.js'
import type { Place } from '../place.js'
import type { Block, Branch, Item, Notice, Step } from '../procedure.js'
import { slugOf } from '../slug-of.js'
import type { BodyContext } from './context.js'
import { textOf } from './declare-names.js'
import { type DirectiveUse, readDirectiveUse } from './directive-use.js'
import { readChoice } from './read-choice.js'
import { type ContentReading, readContent, readContents, readLine } from './read-content.js'
import { readItem } from './read-item.js'
import { type Before, readStep, readWorkList } from './read-step.js'
import { warnOfWrittenSteps } from './written-steps.js'

/** Where a body stands: the file itself, a branch, or inside something that was not understood and is dropped. */
type Where = 'file' | 'branch' | 'dropped'

export interface BodyReading {
  readonly items: readonly Item[]
  readonly body: readonly Block[]
}

/** Reads the whole body of a procedure. */
export function readProcedureBody(nodes: readonly RootContent[], context: BodyContext): BodyReading {
  const reader = new BlockReader(context, 'file')
  reader.read(nodes)
  return { items: reader.items, body: reader.blocks }
}

function readBranch(children: readonly RootContent[], place: Place, context: BodyContext): Branch {
  const reader = new BlockReader(context, 'branch')
  reader.read(children)
  return { place, says: reader.says, body: reader.blocks }
}

class BlockReader {
  readonly blocks: Block[] = []
  readonly items: Item[] = []
  readonly says: Content[] = []
  private readonly context: BodyContext
  private readonly where: Where
  private pending: ContentReading = { content: [], items: [] }
  private pendingPlace: Place | undefined
  private notices: Notice[] = []
  private noticeItems: ContentReading['items'] = []

  constructor(context: BodyContext, where: Where) {
    this.context = context
    this.where = where
  }

  read(nodes: readonly RootContent[]): void {
    for (const node of nodes) this.readNode(node)
    for (const notice of this.notices) {
      this.context.faults.add(
        'notice-without-step',
        notice.place,
        `No step follows the notice ${quoted(notice.word)} here.`,
        'Move it before the step that it belongs to.'
      )
    }
    if (this.pending.content.length > 0 && this.pendingPlace !== undefined) {
      this.blocks.push({ kind: 'closing', content: this.pending.content, place: this.pendingPlace })
    }
  }

  private readNode(node: RootContent): void {
    switch (node.type) {
      case 'yaml':
        return
      case 'heading':
        if (this.where === 'file') this.readHeading(node)
        else readContent(node, 'hidden', this.context, this.pending)
        return
      case 'containerDirective':
      case 'leafDirective': {
        const use = readDirectiveUse(node, this.context)
        if (use === undefined) this.drop(node.type === 'containerDirective' ? node.children : [])
        else this.readDirective(use)
        return
      }
      case 'list':
        if (node.ordered === true) {
          const before = this.takeBefore()
          this.context.anyWork = true
          this.blocks.push(
            readWorkList(node, before, this.context.countStep(this.context.place(node.position)), this.context)
          )
          return
        }
        this.readProse(node)
        return
      default:
        this.readProse(node)
    }
  }

  /** Looks for more faults inside what was not understood; nothing of it is kept. */
  private drop(children: readonly RootContent[]): void {
    const label = children[0]?.type === 'paragraph' && children[0].data?.directiveLabel === true
    new BlockReader(this.context, 'dropped').read(label ? children.slice(1) : children)
    // A notice before it has its step, though the step cannot be read.
    this.takeBefore()
  }

  private readProse(node: RootContent): void {
    const first = this.where === 'branch' && this.blocks.length === 0 && this.notices.length === 0
    const into: ContentReading = first ? { content: this.says, items: [] } : this.pending
    readContent(node, 'hidden', this.context, into)
    if (node.type === 'paragraph' || node.type === 'list') warnOfWrittenSteps(node, this.context)
    if (first || node.type === 'html') return
    const place = this.context.place(node.position)
    this.pendingPlace = this.pendingPlace === undefined ? place : { ...this.pendingPlace, end: place.end }
  }

  private readHeading(node: Extract<RootContent, { type: 'heading' }>): void {
    const { faults } = this.context
    const place = this.context.place(node.position)
    const into: ContentReading = { content: [], items: [] }
    const title = plainText(readLine(node.children, this.context, into)).trim()
    // The id is made before names are resolved, so a reference counts with the name that it names.
    const id = slugOf(textOf(node)) as SectionId
    if (id === '') {
      faults.add(
        'empty-title',
        place,
        title === '' ? 'This heading has no title.' : `The title ${quoted(title)} holds no letter and no digit.`,
        'Write a title with letters or digits.'
      )
    }
    this.context.section = id
    this.blocks.push({ kind: 'heading', id, level: node.depth, title, place })
  }

  private readDirective(use: DirectiveUse): void {
    const { context } = this
    switch (use.specification.group) {
      case 'requirement':
        this.readRequirement(use)
        return
      case 'notice':
        this.readNotice(use)
        return
      case 'step':
        this.readStepDirective(use)
        return
      case 'choice': {
        const before = this.takeBefore()
        const id = context.countStep(use.place)
        this.blocks.push(
          readChoice(use, before, id, context, (children, place) => readBranch(children, place, context))
        )
        return
      }
      case 'branch':
        if (this.where !== 'dropped') {
          context.faults.add(
            'misplaced-directive',
            use.place,
            `${quoted(use.name)} stands outside of what it belongs to.`,
            `Write it directly inside ${holdersOf(use.name)}.`
          )
        }
        this.drop(use.children)
        return
    }
  }

  private readRequirement(use: DirectiveUse): void {
    if (this.where !== 'file') {
      this.context.faults.add(
        'misplaced-directive',
        use.place,
        `${quoted(use.name)} stands inside another directive.`,
        'Write it at the left edge before the first lock, where everything is gathered.'
      )
      return
    }
    if (this.items.length === 0) {
      const { intro } = this.takeIntro()
      this.blocks.push({ kind: 'gather', place: use.place, section: this.context.section, intro })
    }
    this.items.push(readItem(use, this.context))
  }

  private readNotice(use: DirectiveUse): void {
    const into: ContentReading = { content: [], items: [] }
    const label = readLine(use.label, this.context, into)
    const inner = readInside(use, this.context)
    const { content, items } = readContents(inner.prose, 'hidden', this.context)
    this.notices.push({ word: use.name as Notice['word'], label, body: content, place: use.place })
    this.noticeItems.push(...into.items, ...items)
  }

  private readStepDirective(use: DirectiveUse): void {
    const before = this.takeBefore()
    const id = this.context.countStep(use.place)
    const { prose, outside } = readInside(use, this.context)
    const step: Step = readStep(use, prose, outside, before, id, this.context)
    if (step.kind === 'work') this.context.anyWork = true
    this.blocks.push(step)
  }

  private takeIntro(): { readonly intro: readonly Content[]; readonly items: ContentReading['items'] } {
    const { content, items } = this.pending
    this.pending = { content: [], items: [] }
    this.pendingPlace = undefined
    return { intro: content, items }
  }

  private takeBefore(): Before {
    const { intro } = this.takeIntro()
    const before: Before = { intro, notices: this.notices, items: this.noticeItems }
    this.notices = []
    this.noticeItems = []
    return before
  }
}

function holdersOf(branch: string): string {
  const holders: Readonly<Record<string, string>> = {
    when: 'by',
    answer: 'ask',
    outside: 'measure',
    late: 'within',
    remedy: 'remedies',
    otherwise: 'remedies'
  }
  return quoted(holders[branch] ?? branch)
}

/** What stands in the body of a step or notice: prose, and in a measure its `outside`; all else is reported. */
function readInside(
  use: DirectiveUse,
  context: BodyContext
): { readonly prose: readonly RootContent[]; readonly outside: Branch | undefined } {
  const prose: RootContent[] = []
  let outside: Branch | undefined
  for (const node of use.children) {
    if (node.type !== 'containerDirective' && node.type !== 'leafDirective') {
      prose.push(node)
      continue
    }
    const inner = readDirectiveUse(node, context)
    if (inner === undefined) continue
    if (use.name === 'measure' && inner.name === 'outside') {
      if (outside !== undefined) {
        context.faults.add(
          'repeated-branch',
          inner.place,
          `${quoted('measure')} has a second ${quoted('outside')}.`,
          'Take one of the two out.'
        )
      }
      outside ??= readBranch(inner.children, inner.place, context)
      continue
    }
    const notice = inner.specification.group === 'notice'
    const branch = inner.specification.group === 'branch'
    context.faults.add(
      notice
        ? 'nested-notice'
        : branch || inner.specification.group === 'requirement'
          ? 'misplaced-directive'
          : 'nested-step',
      inner.place,
      `${quoted(inner.name)} stands inside ${quoted(use.name)}, which holds text alone.`,
      notice
        ? 'Move it before the step that it belongs to.'
        : branch
          ? `Write it directly inside ${holdersOf(inner.name)}.`
          : `Close ${quoted(use.name)} before it.`,
      [{ place: use.place, note: `Here ${quoted(use.name)} begins.` }]
    )
  }
  return { prose, outside }
}
