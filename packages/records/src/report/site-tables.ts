import type { AuditReport } from '../audit/report.js'
import { count } from '../audit/verdict.js'

/** A table of the site as a whole; in every row as many cells as there are heads. */
export interface SiteTable {
  readonly title: string
  readonly heads: readonly string[]
  readonly rows: readonly (readonly string[])[]
}

/** Every lock that is still on: whose, since when, on which device, in which run. */
export function hangingTable({ hanging, scope }: Pick<AuditReport, 'hanging' | 'scope'>): SiteTable | null {
  if (hanging.length === 0 && scope === 'run') return null
  return {
    title: `What hangs now: ${count(hanging.length, 'lock')}`,
    heads: ['Lock', 'On', 'Whose', 'Since', 'Hours', 'Equipment', 'Run'],
    rows: hanging.map(({ lock, point, device, by, since, hours, pastShift, equipment, run, status, from }) => [
      lock,
      device === null ? point : `${point} (${device})`,
      by,
      since ?? 'not known',
      hours === null ? 'not known' : `${hours}${pastShift ? ', PAST ITS SHIFT' : ''}`,
      equipment,
      `${run}, ${status === 'running' ? 'open' : status}${fromWords[from]}`
    ])
  }
}

const fromWords = { journal: '', log: ', by the site log', kept: ', by what the auditor kept' }

/** Locks that a closed run left on, and that came off in a later one. */
export function takenOffTable({ takenOffLater }: Pick<AuditReport, 'takenOffLater'>): SiteTable | null {
  if (takenOffLater.length === 0) return null
  return {
    title: `Left on by a closed run, and taken off in a later one: ${count(takenOffLater.length, 'lock')}`,
    heads: ['Lock', 'On', 'Whose', 'Since', 'Equipment', 'Left by', 'Taken off'],
    rows: takenOffLater.map(({ lock, point, by, since, equipment, run, offIn }) => [
      lock,
      point,
      by,
      since ?? 'not known',
      equipment,
      run,
      `${offIn.at}, in ${offIn.run} (entry ${offIn.seq})`
    ])
  }
}

/** Runs that were not closed. */
export function openTable({ open, scope }: Pick<AuditReport, 'open' | 'scope'>): SiteTable | null {
  if (open.length === 0 || scope === 'run') return null
  return {
    title: `Runs that are not closed: ${open.length}`,
    heads: ['Run', 'State', 'Procedure', 'Equipment', 'Opened', 'By', 'Last entry'],
    rows: open.map(({ run, status, mode, procedure, equipment, openedAt, openedBy, lastAt }) => [
      run,
      `${status === 'running' ? 'open' : status}${mode === 'draft' ? ', DRAFT' : ''}`,
      procedure,
      equipment,
      openedAt,
      openedBy,
      lastAt
    ])
  }
}

/** Where each procedure stands with its periodic inspection. */
export function inspectionTable({ inspections }: Pick<AuditReport, 'inspections'>): SiteTable | null {
  if (inspections.length === 0) return null
  return {
    title: 'Periodic inspections (29 CFR 1910.147(c)(6))',
    heads: ['Procedure', 'Equipment', 'Last', 'By', 'Due by', 'State', 'Counted'],
    rows: inspections.map(({ procedure, revision, equipment, last, dueOn, overdue, counted }) => [
      `${procedure}, revision ${revision}`,
      equipment,
      last?.on ?? 'none',
      last?.by ?? '',
      dueOn,
      overdue ? 'OVERDUE' : 'in time',
      counted
    ])
  }
}

/** Printed sheets that were not entered to the end. */
export function sheetTable({ sheets }: Pick<AuditReport, 'sheets'>): SiteTable | null {
  if (sheets.length === 0) return null
  return {
    title: `Sheets that did not come back whole: ${sheets.length}`,
    heads: ['Sheet', 'Procedure', 'Printed', 'By', 'Days', 'State'],
    rows: sheets.map(({ serial, procedure, revision, printedAt, by, days, state, run }) => [
      serial,
      `${procedure}, revision ${revision}`,
      printedAt,
      by ?? 'not known',
      String(days),
      state === 'out' ? 'out' : `entered in part, as ${run}`
    ])
  }
}

/** The tables that there are for this report. */
export function siteTablesOf(report: AuditReport): readonly SiteTable[] {
  return [
    hangingTable(report),
    takenOffTable(report),
    openTable(report),
    inspectionTable(report),
    sheetTable(report)
  ].filter((table) => table !== null)
}

/** The table as lines of text, in columns. */
export function alignedLines({ heads, rows }: SiteTable): readonly string[] {
  if (rows.length === 0) return ['none']
  const widths = heads.map((head, column) => Math.max(head.length, ...rows.map((row) => row[column]?.length ?? 0)))
  return [heads, ...rows].map((row) =>
    row.map((cell, column) => (column === row.length - 1 ? cell : cell.padEnd(widths[column] ?? 0))).join('  ')
  )
}
