import type { Link, PhrasingContent } from 'mdast'
import { plainText, type Run } from '../content.js'
import { quoted } from '../faults.js'
import { hiddenCharacter } from '../hidden-characters.js'
import type { ItemId } from '../ids.js'
import type { Place } from '../place.js'
import type { BodyContext } from './context.js'
import { readComment } from './read-comment.js'

/** Running text, and the tools, parts and protective items that it refers to. */
export interface RunReading {
  readonly runs: Run[]
  readonly items: { readonly id: ItemId; readonly place: Place }[]
  /** Images found in it, which stand for themselves. */
  readonly images: { readonly source: string; readonly alternate: string; readonly place: Place }[]
}

type Style = 'text' | 'strong' | 'emphasis'

export function newReading(): RunReading {
  return { runs: [], items: [], images: [] }
}

/** Reads inline nodes into runs. Nested emphasis keeps the strongest; a link shows its address behind its text. */
export function readRuns(
  nodes: readonly PhrasingContent[],
  context: BodyContext,
  into = newReading(),
  style: Style = 'text'
): RunReading {
  for (const node of nodes) readRun(node, context, into, style)
  return into
}

function readRun(node: PhrasingContent, context: BodyContext, into: RunReading, style: Style): void {
  switch (node.type) {
    case 'text':
      checkText(node.value, context.place(node.position), context)
      push(into, style, node.value)
      return
    case 'inlineCode':
      push(into, 'code', node.value)
      return
    case 'strong':
      readRuns(node.children, context, into, 'strong')
      return
    case 'emphasis':
      readRuns(node.children, context, into, style === 'strong' ? 'strong' : 'emphasis')
      return
    case 'break':
      into.runs.push({ kind: 'break' })
      return
    case 'reference':
      readReference(node.value, context.place(node.position), context, into)
      return
    case 'link':
      readLink(node, context, into, style)
      return
    case 'image':
      into.images.push({ source: node.url, alternate: node.alt ?? '', place: context.place(node.position) })
      return
    case 'html':
      readComment(node.value, context.place(node.position), context)
      return
    default:
      // Footnotes, strike-through and references to definitions are not in the syntax: shown as typed.
      push(into, style, sliceOf(context.place(node.position), context))
  }
}

/** A link shows its text and, where that is not the same, its address behind it. */
function readLink(node: Link, context: BodyContext, into: RunReading, style: Style): void {
  const inner = readRuns(node.children, context, newReading(), style)
  const shown = plainText(inner.runs).trim()
  for (const run of inner.runs) {
    if (run.kind === style) push(into, style, run.text)
    else into.runs.push(run)
  }
  into.items.push(...inner.items)
  into.images.push(...inner.images)
  if (shown === '') push(into, style, node.url)
  else if (shown !== node.url && `mailto:${shown}` !== node.url) push(into, style, ` (${node.url})`)
}

function push(into: RunReading, kind: Style | 'code', written: string): void {
  const last = into.runs.at(-1)
  // Blanks and line endings are one space, as on a page; a comment or an image that was taken out leaves none.
  const single = written.replace(/[ \t\r\n]+/g, ' ')
  const text = last?.kind === 'text' && last.text.endsWith(' ') ? single.replace(/^ /, '') : single
  if (last?.kind === kind && kind !== 'code') into.runs[into.runs.length - 1] = { kind, text: last.text + text }
  else if (text !== '') into.runs.push({ kind, text })
}

function sliceOf(place: Place, { source }: BodyContext): string {
  return source.text.slice(place.start.offset, place.end.offset)
}

function readReference(name: string, place: Place, context: BodyContext, into: RunReading): void {
  const sorts = [
    'source',
    'point',
    'restraint',
    'role',
    'tool',
    'part',
    'wear',
    'section',
    'step',
    'sign-off',
    'choice'
  ] as const
  const named = context.names.find(name, sorts, place)
  into.runs.push({ kind: 'ref', to: name, text: named?.label ?? name })
  if (named?.sort === 'tool' || named?.sort === 'part' || named?.sort === 'wear')
    into.items.push({ id: name as ItemId, place })
}

// A colon before it makes it part of a longer word, and a backslash says that it is meant as text.
const nearReference = /(?<![\\:\p{L}\p{N}]):(ref)(?![\p{L}\p{N}])/giu

/** Text that is nearly a reference, and hidden characters that were written as character references. */
function checkText(value: string, place: Place, context: BodyContext): void {
  if (hiddenCharacter.test(value) && !hiddenCharacter.test(sliceOf(place, context))) {
    context.faults.add('control-character', place, 'This text holds a hidden character.', 'Take the character out.')
  }
  if (!/:ref/i.test(value)) return
  for (const found of sliceOf(place, context).matchAll(nearReference)) {
    const start = place.start.offset + found.index
    const [, written = ''] = found
    context.faults.add(
      written === 'ref' ? 'bad-reference' : 'wrong-case',
      context.source.place(start, start + 4),
      written === 'ref'
        ? '`:ref` is not followed by a name in brackets.'
        : `${quoted(`:${written}`)} is not a reference: it is written in small letters.`,
      'Write it as `:ref[name]`, on one line.'
    )
  }
}
