import type { RunSummary } from '../run-types.js'

/**
 * whole: nothing was changed or removed. followed: the run keeps to its machine. fit: the people were entitled and the
 * readings lie within limits. timely: waits were waited out and clocks make sense. due: what has to be seen to now.
 */
export type Question = 'whole' | 'followed' | 'fit' | 'timely' | 'due'

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
  /** File and line, and line in the procedure where there is one, in words. */
  readonly where: string
  /** File concerned, relative to the site folder. */
  readonly file: string
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

/** A wait that was ended, beside what the machine asks for. Seconds. */
export interface AuditWait {
  readonly seq: number
  readonly title: string
  readonly source: string | null
  readonly needed: number
  readonly waited: number
}

export interface AuditDeviation {
  readonly seq: number
  readonly at: string
  readonly by: string
  readonly title: string
  readonly reason: string
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
  /** The gravest of the five. */
  readonly answer: AuditAnswer
  /** The five, in the order of `Question`. */
  readonly verdicts: readonly [AuditVerdict, AuditVerdict, AuditVerdict, AuditVerdict, AuditVerdict]
  readonly waits: readonly AuditWait[]
  readonly deviations: readonly AuditDeviation[]
  /** Everyone who stands in the record, by id. */
  readonly people: readonly string[]
  /** Empty where the audit was asked for verdicts alone. */
  readonly entries: readonly AuditEntry[]
}

/** One lock that is still on. */
export interface HangingNow {
  readonly lock: string
  /** Isolating device: its id, and what and where it is as far as the machine says. */
  readonly point: string
  readonly device: string | null
  readonly by: string
  readonly since: string | null
  /** Hours until the audit; null where `since` is. */
  readonly hours: number | null
  /** Whether the shift in which it was hung is over. */
  readonly pastShift: boolean
  readonly run: string
  readonly equipment: string
  readonly status: RunSummary['status'] | 'not known'
  /** `log`: as the run's leaf in the site log has it; `kept`: as the auditor kept it. The journal was not read again. */
  readonly from: 'journal' | 'log' | 'kept'
}

/** A lock that a closed run left on, and the later run in which its owner had it on record again and took it off. */
export interface TakenOffLater {
  readonly lock: string
  readonly point: string
  readonly by: string
  readonly since: string | null
  readonly equipment: string
  /** The run that left it. */
  readonly run: string
  readonly offIn: { readonly run: string; readonly seq: number; readonly at: string }
}

/** A run that was not closed. */
export interface OpenRun {
  readonly run: string
  readonly procedure: string
  readonly equipment: string
  readonly status: RunSummary['status']
  readonly openedAt: string
  readonly openedBy: string
  readonly lastAt: string
  readonly mode: RunSummary['mode']
}

/** Where a procedure stands with its periodic inspection (29 CFR 1910.147(c)(6)). */
export interface InspectionState {
  readonly procedure: string
  readonly revision: number
  /** Tag of the equipment. */
  readonly equipment: string
  /** The last sound one; null: none. */
  readonly last: { readonly on: string; readonly by: string; readonly file: string } | null
  /** Day (`YYYY-MM-DD`) by which the next is due, and from what it is counted. */
  readonly dueOn: string
  readonly counted: string
  readonly overdue: boolean
}

/** A printed sheet that was not entered to the end. */
export interface SheetOut {
  readonly serial: string
  readonly procedure: string
  readonly revision: number
  readonly printedAt: string
  readonly by: string | null
  /** Whole days since it was printed. */
  readonly days: number
  readonly state: 'out' | 'partly-entered'
  /** The run that it was entered as in part. */
  readonly run: string | null
}

/** What was asked for, and what was left out of the runs for it. */
export interface AuditScope {
  readonly since: string | null
  readonly equipment: string | null
  readonly person: string | null
  /** Runs that were read and are not told, for each filter in words. */
  readonly leftOut: readonly { readonly why: string; readonly runs: number }[]
  /** Runs that a kept checkpoint covers, which were not read again; null: all were read. */
  readonly covered: {
    readonly runs: number
    readonly checkpoint: string
    /** When the auditor kept what was gone by instead of the log; null: the leaves of those runs were read. RFC 3339. */
    readonly kept: string | null
  } | null
}

export interface AuditReport {
  readonly format: 'lockwright-audit/2'
  /** Whether every run of the site was asked for, or one. */
  readonly scope: 'site' | 'run'
  readonly asked: AuditScope
  readonly site: string
  /** When the audit was made. */
  readonly at: string
  /** Thumbprint (RFC 7638) of the root key, and where it was taken from; null: no roster could be read. */
  readonly root: {
    readonly thumbprint: string
    readonly from: 'auditor' | 'site folder'
    /**
     * Where the auditor knows an earlier root key: that one, and each that it was handed over through to the present one,
     * with the time of each handover; every one was found signed by the key before. Empty: no handover was followed.
     */
    readonly handedOver: readonly { readonly from: string; readonly to: string; readonly at: string }[]
  } | null
  readonly roster: { readonly serial: number; readonly signedAt: string; readonly people: number } | null
  /** Of the site as a whole: its log under `whole`, procedures, sheets and calibration under `due`. Empty for one run. */
  readonly general: readonly AuditVerdict[]
  readonly runs: readonly RunAudit[]
  readonly hanging: readonly HangingNow[]
  readonly takenOffLater: readonly TakenOffLater[]
  readonly open: readonly OpenRun[]
  readonly inspections: readonly InspectionState[]
  readonly sheets: readonly SheetOut[]
  /** What could not be asked at all, in plain words. */
  readonly notAnswered: readonly string[]
  /** What no audit of these files can see, in plain words. */
  readonly limits: readonly string[]
  readonly caution: string
}
