export type { SarifLog } from './sarif-log.js'
export { type CheckedFile, type SarifOptions, sarifOf } from './sarif-of.js'
