import Handlebars from 'handlebars'

type Render = (view: unknown) => string

/**
 * A template that is compiled at its first use. Strict mode of handlebars says nothing of a name that is missing under
 * `#if` or `#each`, so each path is looked up in the view first. A fault in a template is a bug and throws.
 */
export function template(source: string, options: { readonly noEscape: boolean }): Render {
  let render: Render | null = null
  const ast = (): hbs.AST.Program => Handlebars.parse(source)
  return (view) => {
    checkPaths(ast(), [view])
    render ??= Handlebars.compile(source, {
      strict: true,
      knownHelpersOnly: true,
      preventIndent: true,
      noEscape: options.noEscape
    })
    return render(view)
  }
}

/** Looks every path of a program up in the values that it will be rendered with, innermost last. */
function checkPaths(program: hbs.AST.Program, scopes: readonly unknown[]): void {
  for (const statement of program.body) {
    switch (statement.type) {
      case 'ContentStatement':
      case 'CommentStatement':
        break
      case 'MustacheStatement':
        lookUp((statement as hbs.AST.MustacheStatement).path as hbs.AST.PathExpression, scopes)
        break
      case 'BlockStatement':
        checkBlock(statement as hbs.AST.BlockStatement, scopes)
        break
      default:
        throw new Error(`A template may not hold a ${statement.type}`)
    }
  }
}

function checkBlock(block: hbs.AST.BlockStatement, scopes: readonly unknown[]): void {
  const value = lookUp(block.params[0] as hbs.AST.PathExpression, scopes)
  if (block.path.original === 'each') {
    if (!Array.isArray(value)) throw new Error('A template asks for each of what is no list')
    for (const item of value) checkPaths(block.program, [...scopes, item])
    return
  }
  if (block.path.original !== 'if') throw new Error(`A template uses ${String(block.path.original)}`)
  if (value !== '' && value !== false && !(Array.isArray(value) && value.length === 0))
    checkPaths(block.program, scopes)
  else if (block.inverse !== undefined && block.inverse !== null) checkPaths(block.inverse, scopes)
}

function lookUp(path: hbs.AST.PathExpression, scopes: readonly unknown[]): unknown {
  let value = scopes.at(-1 - path.depth)
  for (const part of path.parts as readonly string[]) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, part)) {
      throw new Error(`A template names ${path.original}, which is not in the view`)
    }
    value = (value as Record<string, unknown>)[part]
  }
  return value
}
