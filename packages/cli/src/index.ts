export type { ReportedFile } from './commands/check.js'
export { type Compiled, compileFile } from './compile-file.js'
export { type ReportedDiagnostic, reportJson } from './report-json.js'
