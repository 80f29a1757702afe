import type { RunSummary } from '../run-types.js'

/**
 * whole: nothing was changed or removed. followed: the run keeps to its machine. fit: the people were entitled and the
 * readings lie within limits. timely: waits were waited out and clocks make sense.
 */
export type Question = 'whole' | 'followed' | 'fit' | 'timely'

/** `cannot-tell`: nothing speaks against it, yet something that would be needed to say `good` is not there. */
export type AuditAnswer = 'good' | 'findings' | 'cannot-tell'

export interface AuditFinding {
  /** Kebab-case. */
  readonly id: string
  /** `fault` makes the answer `findings`; `doubt` makes it `cannot-tell`. */
  readonly weight: 'fault' | 'doubt'
  /** Sequence number of the entry (line of the journal); null: not about one entry. */
  readonly seq: number | null
  /** Further entries of which the same is to be said, in their order. */
  readonly also: readonly number[]
  /** File, and line in the procedure where there is one. */
  readonly where: string
  readonly what: string
  readonly danger: string
  readonly mend: string
}

export interface AuditVerdict {
  readonly question: Question
  readonly answer: AuditAnswer
  /** In the order of the entries. */
  readonly findings: readonly AuditFinding[]
  /** What was looked at, with counts, in plain words. */
  readonly checked: readonly string[]
}

/** One line of the story of the run, in plain words. */
export interface AuditEntry {
  readonly seq: number
  readonly at: string
  readonly by: string
  readonly title: string
  readonly what: string
  /** What a reader must not miss here: a live reading, a break of the chain. Empty: nothing. */
  readonly mark: string
  /** Printed name, time and meaning; null: not signed. `good` false: the signature does not hold. */
  readonly signature: {
    readonly name: string
    readonly at: string
    readonly meaning: string
    readonly good: boolean
  } | null
}

export interface HangingLock {
  readonly lock: string
  readonly point: string
  /** Name and id of whoever hung it. */
  readonly by: string
  /** RFC 3339; null: the record does not say. */
  readonly since: string | null
  /** Last entry that could be replayed, where others follow; null: the whole record was. */
  readonly asOf: number | null
}

export interface RunAudit {
  readonly run: string
  readonly file: string
  /** Null where not even the first entry could be read. */
  readonly summary: RunSummary | null
  /** Title of the procedure and equipment, from the machine; null where there is none to be had. */
  readonly title: string | null
  readonly equipment: string | null
  /** `reason`: why it may ask less than the revision before; null where it asks no less. */
  readonly issue: {
    readonly name: string
    readonly at: string
    readonly meaning: string
    readonly reason: string | null
    /** Issued only after the run was opened. */
    readonly later: boolean
  } | null
  /** Locks that hang by the record as far as it was replayed; null: it could not be. A rehearsal hangs none. */
  readonly locks: readonly HangingLock[] | null
  /** Waived obligations stand in every record. */
  readonly waivers: readonly { readonly obligation: string; readonly why: string; readonly by: string }[]
  /** The four, in the order of `Question`. */
  readonly verdicts: readonly [AuditVerdict, AuditVerdict, AuditVerdict, AuditVerdict]
  readonly entries: readonly AuditEntry[]
}

export interface AuditReport {
  readonly format: 'lockwright-audit/1'
  /** Whether every run of the site was asked for, or one. */
  readonly scope: 'site' | 'run'
  readonly site: string
  /** When the audit was made. */
  readonly at: string
  /** Thumbprint (RFC 7638) of the root key, and where it was taken from; null: no roster could be read. */
  readonly root: { readonly thumbprint: string; readonly from: 'auditor' | 'site folder' } | null
  readonly roster: { readonly serial: number; readonly signedAt: string; readonly people: number } | null
  readonly runs: readonly RunAudit[]
  /** What no audit of these files can see, in plain words. */
  readonly limits: readonly string[]
  readonly caution: string
}
