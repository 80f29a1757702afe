export { branchesOf } from './branches-of.js'
export * from './content.js'
export type { ProcedureSource } from './decode-source.js'
export * from './diagnostic.js'
export type {
  AttributeSpecification,
  AttributeValue,
  DirectiveGroup,
  DirectiveSpecification
} from './directive-specification.js'
export { DIRECTIVES } from './directives.js'
export { type FaultId, faultDangers } from './fault-dangers.js'
export * from './front-matter.js'
export * from './ids.js'
export { nearest } from './nearest.js'
export { parseProcedure } from './parse-procedure.js'
export * from './place.js'
export * from './procedure.js'
export { LIMITS } from './scan/limits.js'
export { slugOf } from './slug-of.js'
