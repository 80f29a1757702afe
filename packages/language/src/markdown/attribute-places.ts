import { type ContainerDirective, directiveFromMarkdown, type LeafDirective } from 'mdast-util-directive'
import type { Position } from 'unist'

/** One attribute as it stands in the source, so that doubled ones are seen; `#x` has the name `#`, `.x` the name `.`. */
export interface AttributeToken {
  readonly name: string
  /** Character references are resolved; empty where no value is written. */
  value: string
  readonly position: Position
  valuePosition?: Position
}

/** What mdast-util-directive does not keep. */
export interface DirectivePlaces {
  readonly attributes: AttributeToken[]
  name?: Position
  label?: Position
  /** Opening and closing fence of a container; one alone where it was never closed. */
  readonly fences: Position[]
}

declare module 'mdast-util-directive' {
  interface ContainerDirectiveData {
    places?: DirectivePlaces
  }
  interface LeafDirectiveData {
    places?: DirectivePlaces
  }
}

type Extension = ReturnType<typeof directiveFromMarkdown>
type Handles = NonNullable<Extension['exit']>
type Handle = Handles[string]
type Context = ThisParameterType<Handle>
type Token = Parameters<Handle>[0]

/** The places of a directive, which is made ready to have some. */
export function placesOf(node: ContainerDirective | LeafDirective): DirectivePlaces {
  node.data ??= {}
  node.data.places ??= { attributes: [], fences: [] }
  return node.data.places
}

/**
 * An mdast extension that wraps the handlers of mdast-util-directive and notes the place of every name, label,
 * attribute and fence on the node.
 */
export function attributePlaces(): Extension {
  const base = directiveFromMarkdown().exit ?? {}
  const exit: Handles = {}
  const after = (type: string, note: (places: DirectivePlaces, token: Token, context: Context) => void): void => {
    const handle = base[type]
    exit[type] = function (token) {
      handle?.call(this, token)
      const node = innermost(this)
      if (node !== undefined) note(placesOf(node), token, this)
    }
  }
  for (const form of ['directiveContainer', 'directiveLeaf']) {
    after(`${form}Name`, (places, token) => {
      places.name = positionOf(token)
    })
    after(`${form}Label`, (places, token) => {
      places.label = positionOf(token)
    })
    after(`${form}AttributeName`, (places, token, context) => {
      places.attributes.push({ name: context.sliceSerialize(token), value: '', position: positionOf(token) })
    })
    for (const [type, sign] of [
      ['AttributeId', '#'],
      ['AttributeClass', '.']
    ]) {
      after(`${form}${type}Value`, (places, token, context) => {
        const position = positionOf(token)
        const { line, column, offset = 0 } = position.start
        const start = { line, column: column - 1, offset: offset - 1 }
        const value = context.sliceSerialize(token)
        places.attributes.push({
          name: sign ?? '',
          value,
          // Each point is moved by itself later on: none may be shared.
          position: { start, end: { ...position.end } },
          valuePosition: position
        })
      })
    }
    after(`${form}AttributeValue`, (places, token, context) => {
      const attribute = places.attributes.at(-1)
      if (attribute === undefined) return
      // The base handler has just resolved the character references of this value.
      attribute.value = context.data.directiveAttributes?.at(-1)?.[1] ?? context.sliceSerialize(token)
      attribute.valuePosition = positionOf(token)
      attribute.position.end = { ...attribute.valuePosition.end }
    })
    // A quoted value ends behind its quotes.
    after(`${form}AttributeValueLiteral`, (places, token) => {
      const attribute = places.attributes.at(-1)
      if (attribute !== undefined) attribute.position.end = positionOf(token).end
    })
  }
  after('directiveContainerFence', (places, token) => {
    places.fences.push(positionOf(token))
  })
  return { exit }
}

function innermost(context: Context): ContainerDirective | LeafDirective | undefined {
  for (let index = context.stack.length - 1; index >= 0; index -= 1) {
    const node = context.stack[index]
    if (node?.type === 'containerDirective' || node?.type === 'leafDirective') return node
  }
  return undefined
}

function positionOf({ start, end }: Token): Position {
  return {
    start: { line: start.line, column: start.column, offset: start.offset },
    end: { line: end.line, column: end.column, offset: end.offset }
  }
}
