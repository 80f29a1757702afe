import type { directiveFromMarkdown } from 'mdast-util-directive'
import type { gfmTable } from 'micromark-extension-gfm-table'
import type { Literal } from 'unist'

/** `:ref[name]` in running text. */
export interface ProcedureReference extends Literal {
  type: 'reference'
  value: string
}

declare module 'mdast' {
  interface PhrasingContentMap {
    reference: ProcedureReference
  }
  interface RootContentMap {
    reference: ProcedureReference
  }
}

type Syntax = ReturnType<typeof gfmTable>
type Construct = Extract<NonNullable<NonNullable<Syntax['text']>[number]>, { tokenize: unknown }>
type Tokenizer = Construct['tokenize']
type State = ReturnType<Tokenizer>
type TokenType = Parameters<Parameters<Tokenizer>[0]['enter']>[0]
type Extension = ReturnType<typeof directiveFromMarkdown>

const colon = 58
const closingBracket = 93
const openingBracket = 91
const longest = 200

// micromark lists the types of its tokens in an interface that only its own packages can reach.
const reference = 'procedureReference' as TokenType
const referenceName = 'procedureReferenceName' as TokenType
const referenceMarker = 'procedureReferenceMarker' as TokenType

/**
 * The one text directive of the language, as a construct of its own: every other `:word` stays text exactly as it
 * was typed, and no unclosed brace can make the parser look to the end of a paragraph again and again.
 */
const tokenize: Tokenizer = (effects, ok, nok) => {
  const opening = ':ref['
  let index = 0
  let length = 0
  const start: State = (code) => {
    effects.enter(reference)
    effects.enter(referenceMarker)
    return marker(code)
  }
  const marker: State = (code) => {
    if (code !== opening.charCodeAt(index)) return nok(code)
    effects.consume(code)
    index += 1
    if (index < opening.length) return marker
    effects.exit(referenceMarker)
    return nameStart
  }
  const nameStart: State = (code) => {
    if (code === closingBracket) return nok(code)
    effects.enter(referenceName)
    return name(code)
  }
  const name: State = (code) => {
    // Negative codes are tabs and line endings.
    if (code === null || code < 0 || code === openingBracket || length > longest) return nok(code)
    if (code === closingBracket) {
      effects.exit(referenceName)
      effects.enter(referenceMarker)
      effects.consume(code)
      effects.exit(referenceMarker)
      effects.exit(reference)
      return ok
    }
    effects.consume(code)
    length += 1
    return name
  }
  return start
}

export const referenceSyntax: Syntax = {
  text: { [colon]: { name: 'procedureReference', tokenize, previous: (code) => code !== colon } }
}

export const referenceFromMarkdown: Extension = {
  enter: {
    [reference](token) {
      this.enter({ type: 'reference', value: '' }, token)
    },
    [referenceName](token) {
      const node = this.stack.at(-1)
      if (node?.type === 'reference') node.value = this.sliceSerialize(token)
    }
  },
  exit: {
    [reference](token) {
      this.exit(token)
    }
  }
}
