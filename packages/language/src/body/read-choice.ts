import type { RootContent } from 'mdast'
import type { Content } from '../content.js'
import { quoted } from '../faults.js'
import type { AxisId, ItemId, RoleId, SectionId, StepId } from '../ids.js'
import type { Place } from '../place.js'
import type { Branch, Choice, ChoiceBase, ChoiceKind } from '../procedure.js'
import type { BodyContext } from './context.js'
import { type DirectiveUse, readDirectiveUse } from './directive-use.js'
import { type ContentReading, readContent, readLine } from './read-content.js'
import { given } from './read-item.js'
import type { Before } from './read-step.js'

/** Reads the steps between two fences; the readers of blocks and of choices call each other. */
export type ReadBranch = (children: readonly RootContent[], place: Place) => Branch

/** Reads a choice directive. */
export function readChoice(
  use: DirectiveUse,
  before: Before,
  id: StepId,
  context: BodyContext,
  readBranch: ReadBranch
): Choice {
  const { attributes } = use
  const base: ChoiceBase = {
    id: (use.id?.text as StepId | undefined) ?? id,
    named: use.id !== undefined,
    section: context.section,
    place: use.place,
    whole: use.whole,
    intro: before.intro,
    notices: before.notices
  }
  const none: ContentReading = { content: [], items: [] }
  const kind = use.name as ChoiceKind
  switch (kind) {
    case 'by': {
      const axis = attributes.axis('hardware')
      const { intro, branches } = splitBranches(use, context)
      const whens = branches.map((branch) => ({
        ...readBranch(branch.children, branch.place),
        values: branch.attributes.axisValues('is', axis)
      }))
      return { ...base, intro: [...base.intro, ...intro], kind, axis: axis?.id ?? ('' as AxisId), whens }
    }
    case 'only': {
      const [name, ...others] = attributes.axisNames()
      if (name === undefined && !context.names.incomplete) {
        context.faults.add(
          'missing-attribute',
          use.namePlace,
          `${quoted('only')} does not say for which generation.`,
          'Write the axis and its values: `only{axis=value}`.'
        )
      }
      for (const other of others) {
        context.faults.add(
          'contradicting-attributes',
          attributes.place(other) ?? use.place,
          `${quoted('only')} takes one axis, and ${quoted(other)} is a second one.`,
          'Write one `only` inside the other.'
        )
      }
      const axis = context.head.axes.find((candidate) => candidate.id === name)
      const values = name === undefined ? [] : attributes.axisValues(name, axis)
      return { ...base, kind, axis: axis?.id ?? ('' as AxisId), values, branch: readBranch(use.children, use.place) }
    }
    case 'ask': {
      const { intro, branches } = splitBranches(use, context)
      const answers = branches.map((branch) => ({
        label: readLine(branch.label, context, none),
        ...readBranch(branch.children, branch.place)
      }))
      return {
        ...base,
        intro: [...base.intro, ...intro],
        kind,
        question: readLine(use.label, context, none),
        ...given('role', attributes.ids<RoleId>('role')[0]),
        answers
      }
    }
    case 'within': {
      const { rest, late } = splitLate(use, context)
      return {
        ...base,
        kind,
        seconds: attributes.time('time')?.si ?? 0,
        branch: readBranch(rest, use.place),
        late: late === undefined ? noBranch(use) : readBranch(late.children, late.place)
      }
    }
    case 'back':
      return { ...base, kind, to: attributes.ids<StepId>('to')[0] ?? ('' as StepId) }
    case 'repeat':
      return { ...base, kind, of: attributes.ids<SectionId>('section')[0] ?? ('' as SectionId) }
    case 'remedies': {
      const { intro, branches } = splitBranches(use, context)
      const otherwise = branches.filter(({ name }) => name === 'otherwise')
      checkOtherwise(use, branches, otherwise, context)
      const [last] = otherwise
      return {
        ...base,
        intro: [...base.intro, ...intro],
        kind,
        retest: attributes.ids<SectionId>('retest')[0] ?? ('' as SectionId),
        relock: attributes.ids<SectionId>('relock')[0] ?? ('' as SectionId),
        cured: attributes.text('cured') ?? '',
        fixedOrder: attributes.word<'fixed'>('order') === 'fixed',
        remedies: branches
          .filter(({ name }) => name === 'remedy')
          .map((branch) => ({
            label: readLine(branch.label, context, none),
            ...given('chance', branch.attributes.number('chance', 0, 1)),
            ...given('minutes', branch.attributes.number('minutes', 0)),
            parts: branch.attributes.ids<ItemId>('part'),
            ...readBranch(branch.children, branch.place)
          })),
        otherwise: last === undefined ? noBranch(use) : readBranch(last.children, last.place)
      }
    }
  }
}

function noBranch({ place }: DirectiveUse): Branch {
  return { place, says: [], body: [] }
}

/** The branches of a choice that holds nothing else, and the prose before the first of them. */
function splitBranches(
  use: DirectiveUse,
  context: BodyContext
): { readonly intro: readonly Content[]; readonly branches: readonly DirectiveUse[] } {
  const intro: ContentReading = { content: [], items: [] }
  const branches: DirectiveUse[] = []
  const held = Array.isArray(use.specification.holds) ? (use.specification.holds as readonly string[]) : []
  const wanted = held.map((name) => quoted(name)).join(' and ')
  for (const node of use.children) {
    if (node.type === 'containerDirective' || node.type === 'leafDirective') {
      const inner = readDirectiveUse(node, context)
      if (inner === undefined) continue
      if (held.includes(inner.name)) branches.push(inner)
      else if (inner.specification.group === 'notice') {
        context.faults.add(
          'nested-notice',
          inner.place,
          `The notice ${quoted(inner.name)} stands directly in ${quoted(use.name)}.`,
          `Move it before ${quoted(use.name)}, or into one of its branches.`
        )
      } else {
        context.faults.add(
          'misplaced-directive',
          inner.place,
          `${quoted(inner.name)} stands directly in ${quoted(use.name)}, which holds ${wanted} alone.`,
          `Move it into one of the branches, or behind ${quoted(use.name)}.`
        )
      }
    } else if (node.type === 'html' || (branches.length === 0 && !(node.type === 'list' && node.ordered === true))) {
      readContent(node, 'hidden', context, intro)
    } else {
      const numbered = node.type === 'list' && node.ordered === true
      context.faults.add(
        'prose-between-branches',
        context.place(node.position),
        `${numbered ? 'A numbered list' : 'Text'} stands directly in ${quoted(use.name)}, which holds ${wanted} alone.`,
        `Move it into one of the branches, or before ${quoted(use.name)}.`
      )
    }
  }
  return { intro: intro.content, branches }
}

/** The steps of a `within` and its one `late`, which stands last. */
function splitLate(
  use: DirectiveUse,
  context: BodyContext
): { readonly rest: readonly RootContent[]; readonly late: DirectiveUse | undefined } {
  const lateNodes = use.children.filter((node) => node.type === 'containerDirective' && node.name === 'late')
  const rest = use.children.filter((node) => !lateNodes.includes(node))
  const uses = lateNodes.flatMap((node) =>
    node.type === 'containerDirective' ? (readDirectiveUse(node, context) ?? []) : []
  )
  const [late, ...others] = uses
  if (late === undefined) {
    context.faults.add(
      'missing-branch',
      use.namePlace,
      `${quoted('within')} has no ${quoted('late')}: what to do when the time is over.`,
      'Add a `:::late` as the last thing in it.'
    )
  }
  for (const other of others) {
    context.faults.add(
      'repeated-branch',
      other.place,
      `${quoted('within')} has a second ${quoted('late')}.`,
      'Take one of the two out.'
    )
  }
  const lastNode = use.children.filter((node) => node.type !== 'html').at(-1)
  if (late !== undefined && others.length === 0 && lastNode !== lateNodes[0]) {
    context.faults.add(
      'misplaced-directive',
      late.place,
      `Something stands behind ${quoted('late')} inside ${quoted('within')}, and would be read as part of it.`,
      'Move `late` to the end of `within`.'
    )
  }
  return { rest, late }
}

function checkOtherwise(
  use: DirectiveUse,
  branches: readonly DirectiveUse[],
  otherwise: readonly DirectiveUse[],
  { faults }: BodyContext
): void {
  const [first, ...others] = otherwise
  if (first === undefined) {
    faults.add(
      'missing-branch',
      use.namePlace,
      `${quoted('remedies')} has no ${quoted('otherwise')}: what to do when no remedy cured the fault.`,
      'Add an `otherwise` as the last thing in it.'
    )
    return
  }
  for (const other of others) {
    faults.add(
      'repeated-branch',
      other.place,
      `${quoted('remedies')} has a second ${quoted('otherwise')}.`,
      'Take one of the two out.'
    )
  }
  if (others.length === 0 && branches.at(-1) !== first) {
    faults.add(
      'misplaced-directive',
      first.place,
      `A remedy stands behind ${quoted('otherwise')}.`,
      'Move `otherwise` behind the last remedy.'
    )
  }
}
