import { nearest } from '@lockwright/language'
import type { TemplateFault } from './template-fault.js'
import { templateValues } from './template-values.js'

/** Of the parser's tree, what is looked at; whatever else it holds is refused by its kind. */
interface Node {
  readonly type: string
  readonly loc: { readonly start: { readonly line: number; readonly column: number } }
  readonly body?: readonly Node[]
  readonly path?: Node
  readonly params?: readonly Node[]
  readonly hash?: { readonly pairs: readonly Node[] }
  readonly escaped?: boolean
  readonly original?: unknown
  readonly data?: boolean
  readonly depth?: number
  readonly program?: Node & { readonly blockParams?: readonly string[] }
  readonly inverse?: Node
}

const dropped = 'A name that holds nothing prints nothing, and nobody sees that something is missing.'
const reaching = 'A template that runs more than that can say something else than what was proved.'
const only = 'Only `{{name}}`, `{{#if name}} ... {{else}} ... {{/if}}`, `{{#unless name}}` and comments are allowed.'

/** Every fault of a parsed template, in the order in which they stand. */
export function checkTemplate(file: string, tree: unknown): readonly TemplateFault[] {
  const faults: TemplateFault[] = []
  const fault = (node: Node, what: string, danger: string, mend: string): void => {
    const { line, column } = node.loc.start
    faults.push({ file, line, column: column + 1, what, danger, mend })
  }
  const path = (node: Node): void => {
    const name = String(node.original)
    if (node.type !== 'PathExpression' || node.data === true || (node.depth ?? 0) > 0) {
      fault(node, `\`${name}\` is not the name of a value.`, reaching, only)
    } else if (!Object.hasOwn(templateValues, name)) {
      const known = Object.keys(templateValues)
      const near = nearest(name, known)
      const named = (near.length === 0 ? known : near).map((each) => `\`${each}\``).join(', ')
      fault(node, `There is no value \`${name}\`.`, dropped, `Use one that there is: ${named}.`)
    }
  }
  const visit = (node: Node): void => {
    switch (node.type) {
      case 'Program':
        for (const each of node.body ?? []) visit(each)
        return
      case 'ContentStatement':
      case 'CommentStatement':
        return
      case 'MustacheStatement':
        if ((node.params ?? []).length > 0 || (node.hash?.pairs ?? []).length > 0)
          fault(node, 'A helper is called with arguments.', reaching, only)
        else if (node.escaped === false)
          fault(node, 'A value stands in three braces.', 'Values are printed as they are anyway.', 'Write two braces.')
        else if (node.path !== undefined) path(node.path)
        return
      case 'BlockStatement': {
        const name = String(node.path?.original)
        const [value, ...more] = node.params ?? []
        const plain = (name === 'if' || name === 'unless') && more.length === 0
        if (!plain || value === undefined || (node.hash?.pairs ?? []).length > 0 || node.program?.blockParams?.length)
          fault(node, `A block \`${name}\` cannot be used like this.`, reaching, only)
        else {
          path(value)
          for (const each of [node.program, node.inverse]) if (each) visit(each)
        }
        return
      }
      default:
        fault(node, `A template cannot hold this: ${node.type}.`, reaching, only)
    }
  }
  visit(tree as Node)
  return faults
}
