import type { KeyObject } from 'node:crypto'
import type { PersonId } from '@lockwright/machine'
import { canonicalJson, readCanonical } from '../canonical-json.js'
import { digestPattern } from '../digest.js'
import type { RunId, SignatureNote } from '../entry.js'
import { runId } from '../entry-shape.js'
import { openDetached, signDetached } from '../jws.js'
import { bad, good, type RecordsResult } from '../result.js'
import type { Roster } from '../roster.js'
import { personOf } from '../roster-file.js'
import { everyKey, keyDoubt, tellEnd } from '../roster-keys.js'
import { date, instant, integer, list, matching, nullOr, oneOf, record, word } from '../shape.js'

/** Someone who was included in an inspection. */
export interface Inspected {
  readonly id: PersonId
  /** As the roster had it. */
  readonly name: string
}

/**
 * The certified record of one periodic inspection: what 29 CFR 1910.147(c)(6)(ii) asks it to identify (machine or
 * equipment, date, employees included, person who performed it), what was found and corrected ((c)(6)(i)(B)), and with
 * whom responsibilities were gone through ((c)(6)(i)(C)). `by`, `name` and `at` are the inspector's and of the signing.
 */
export interface Inspection extends SignatureNote {
  readonly format: 'lockwright-inspection/1'
  readonly procedure: string
  readonly revision: number
  /** Digest of the machine that was inspected. */
  readonly machine: string
  readonly equipment: { readonly tag: string; readonly name: string; readonly place: string }
  /** Day of the inspection, `YYYY-MM-DD`. */
  readonly on: string
  /** First day of the time whose runs were looked at for who uses the procedure. */
  readonly from: string
  /** The run that was watched; null: none that is on record. */
  readonly watched: RunId | null
  readonly employees: readonly Inspected[]
  /** Those with whom their responsibilities were gone through. */
  readonly reviewed: readonly Inspected[]
  /** Those who stand in runs of that time and with whom they were not. */
  readonly outstanding: readonly Inspected[]
  /** Deviations and inadequacies, each with what was done about it; none: none were found. */
  readonly deviations: readonly { readonly found: string; readonly corrected: string }[]
}

export const inspectionMeaning = 'Periodic inspection performed'

const people = list(record({ id: word, name: word }))

const shape = record({
  format: oneOf('lockwright-inspection/1'),
  procedure: word,
  revision: integer(0),
  machine: matching(digestPattern, 'a digest'),
  equipment: record({ tag: word, name: word, place: word }),
  on: date,
  from: date,
  watched: nullOr(runId),
  employees: people,
  reviewed: people,
  outstanding: people,
  deviations: list(record({ found: word, corrected: word })),
  by: word,
  name: word,
  at: instant,
  meaning: oneOf(inspectionMeaning)
})

/** The file of an inspection: one compact JWS and a line feed. */
export function formatInspection(inspection: Inspection, key: KeyObject): string {
  const payload = canonicalJson(inspection)
  const [head, , signature] = signDetached('lockwright-inspection', payload, key).split('.')
  return `${head}.${Buffer.from(payload).toString('base64url')}.${signature}\n`
}

/** The inspection in a file, its form and its signature checked against the roster. Who may inspect is another question. */
export function parseInspection(bytes: Uint8Array, file: string, roster: Roster): RecordsResult<Inspection> {
  const content = Buffer.from(bytes).toString('latin1')
  const [head = '', middle = '', tail = '', ...more] = content.replace(/\n$/, '').split('.')
  const payload = Buffer.from(middle, 'base64url').toString('utf8')
  if (more.length > 0 || content !== `${head}.${Buffer.from(payload).toString('base64url')}.${tail}\n`) {
    return unsound(file, 'it is not a compact JWS')
  }
  const opened = openDetached('lockwright-inspection', payload, `${head}..${tail}`, everyKey(roster))
  if (!opened.ok) return unsound(file, opened.why)
  const read = readCanonical(payload)
  if ('fault' in read) return unsound(file, read.fault)
  const fault = shape(read.value)
  if (fault !== null) return unsound(file, `it ${fault}`)
  const inspection = read.value as Inspection
  const inspector = personOf(roster, inspection.by)
  const doubt = inspector === null ? { kind: 'not-theirs' as const } : keyDoubt(inspector, opened.key, inspection.at)
  if (doubt === null) return good(inspection)
  switch (doubt.kind) {
    case 'ended':
      return unsound(file, `the key of \`${inspection.by}\` ${tellEnd(doubt.key)}`)
    case 'not-theirs':
    case 'not-yet':
      return unsound(file, `its key was not that of \`${inspection.by}\` then`)
  }
}

function unsound(file: string, why: string): RecordsResult<never> {
  return bad({
    id: 'inspection-unsound',
    file,
    what: `The record of an inspection does not hold: ${why}.`,
    danger: 'An inspection that nobody performed may pass for one.',
    mend: 'Ask the person named; have the procedure inspected, and the record signed anew.'
  })
}
