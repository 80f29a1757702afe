/** What was wrong with a file or a request of the records, and what to do. */
export interface RecordsFault {
  /** Kebab-case. */
  readonly id: string
  /** File concerned; empty where there is none. */
  readonly file: string
  /** Line of that file, from 1 (in a journal: its sequence number); null for the file as a whole. */
  readonly line: number | null
  readonly what: string
  readonly danger: string
  readonly mend: string
}

/** Records can be missing, damaged or forged: then every fault comes back. Never empty. */
export type RecordsResult<Value> =
  | { readonly ok: true; readonly value: Value }
  | { readonly ok: false; readonly faults: readonly [RecordsFault, ...RecordsFault[]] }

/** Value in hand. */
export function good<Value>(value: Value): RecordsResult<Value> {
  return { ok: true, value }
}

/** One fault, nothing in hand. */
export function bad(fault: Omit<RecordsFault, 'line'> & { readonly line?: number | null }): {
  readonly ok: false
  readonly faults: readonly [RecordsFault]
} {
  return { ok: false, faults: [{ ...fault, line: fault.line ?? null }] }
}
