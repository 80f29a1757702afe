import type { Block, Branch } from './procedure.js'

/** The branches of a block, in the order in which they are written; none for a block that holds no other steps. */
export function branchesOf(block: Block): readonly Branch[] {
  switch (block.kind) {
    case 'by':
      return block.whens
    case 'only':
      return [block.branch]
    case 'ask':
      return block.answers
    case 'within':
      return [block.branch, block.late]
    case 'remedies':
      return [...block.remedies, block.otherwise]
    case 'measure':
      return block.outside === undefined ? [] : [block.outside]
    default:
      return []
  }
}
