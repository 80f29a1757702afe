/** What is wrong with a template: where, why it is dangerous, how to mend it. Lines and columns from 1. */
export interface TemplateFault {
  readonly file: string
  readonly line: number
  readonly column: number
  readonly what: string
  readonly danger: string
  readonly mend: string
}

/** A fault as one paragraph, its place first. */
export function templateFaultText({ file, line, column, what, danger, mend }: TemplateFault): string {
  return `${file}:${line}:${column}: ${what} ${danger} ${mend}`
}
