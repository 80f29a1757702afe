/** A condition in Promela. `true` and `false` are folded away, so that what always holds is not written out. */
export type Expression = string

export function all(parts: readonly Expression[]): Expression {
  if (parts.includes('false')) return 'false'
  return joined(
    [...new Set(parts)].filter((part) => part !== 'true'),
    ' && ',
    'true'
  )
}

export function any(parts: readonly Expression[]): Expression {
  if (parts.includes('true')) return 'true'
  return joined(
    [...new Set(parts)].filter((part) => part !== 'false'),
    ' || ',
    'false'
  )
}

export function not(part: Expression): Expression {
  if (part === 'true') return 'false'
  if (part === 'false') return 'true'
  const [, left, right] = /^(\w+) == (\w+)$/.exec(part) ?? []
  return left !== undefined ? `${left} != ${right}` : `!${grouped(part)}`
}

/** In brackets, where it is more than one word. */
export function grouped(part: Expression): Expression {
  // What `all` and `any` join is in brackets already.
  return /^\w+$|^\(/.test(part) ? part : `(${part})`
}

/** The condition counts only where the premise holds. */
export function where(premise: Expression, condition: Expression): Expression {
  return any([not(premise), condition])
}

function joined(parts: readonly Expression[], operator: string, none: Expression): Expression {
  const [only] = parts
  if (only === undefined) return none
  return parts.length === 1 ? only : `(${parts.join(operator)})`
}
