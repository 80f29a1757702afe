import { thumbprint } from '../public-key.js'
import type { RecordsResult } from '../result.js'
import { handoversFrom } from '../root-chain.js'
import type { Roster } from '../roster.js'
import type { AuditReport } from './report.js'

const caution =
  'This report says which questions about the record were answered, and how. It does not say that the work was safe. Follow the rules of the plant, local codes and qualified people; the tool replaces none of them.'

type Head = Pick<AuditReport, 'format' | 'scope' | 'site' | 'at' | 'root' | 'roster' | 'caution'>

/** What stands at the head of every report. */
export function auditHead(
  read: RecordsResult<Roster>,
  request: { readonly run?: string; readonly journals?: object; readonly trusted?: string },
  at: string,
  name: string
): Head {
  const roster = read.ok ? read.value : null
  return {
    format: 'lockwright-audit/2',
    scope: request.run === undefined && request.journals === undefined ? 'site' : 'run',
    site: roster?.site ?? name,
    at,
    root:
      roster === null
        ? null
        : {
            thumbprint: thumbprint(roster.root),
            from: request.trusted === undefined ? 'site folder' : 'auditor',
            handedOver: request.trusted === undefined ? [] : handoversFrom(roster, request.trusted)
          },
    roster: roster === null ? null : { serial: roster.serial, signedAt: roster.signedAt, people: roster.people.length },
    caution
  }
}

/** What no audit of these files can see. `instruments`: whether the site keeps a list of them. */
export function limitsOf(
  trusted: boolean,
  given: 'none' | 'checkpoint' | 'kept',
  instruments: boolean
): readonly string[] {
  return [
    ...(trusted
      ? []
      : [
          'The root key was taken from the site folder itself. A folder that was replaced whole, root key and all, looks like this one: compare the thumbprint with a copy kept elsewhere.'
        ]),
    removedUnseen[given],
    ...(instruments
      ? []
      : [
          'No list of instruments is kept here: whether a tester or gauge was in calibration, and strong enough for what it was put to, cannot be told.'
        ]),
    'Times are those of the computers that wrote. Whoever holds a key can sign with a time of their choosing.',
    'An inspection is counted by its signed record. Whether anybody looked, and at what, the record cannot show.',
    'An entry without a signature names whoever was at the keys by their own word: that it was that person, the record cannot show.',
    'That a box was ticked says that someone ticked it.'
  ]
}

const removedUnseen = {
  none: 'A journal that was removed together with its leaf in the log, a log put back to an older end, and a roster put back to an older signed one are noticed only by someone who kept a later copy or a checkpoint.',
  checkpoint:
    'What was removed before the kept checkpoint was signed, or is newer than the last leaf of the log and was never closed, is not noticed; nor is a roster put back to an older signed one.',
  kept: 'What was removed before the kept checkpoint was signed, or is newer than the last leaf of the log and was never closed, is not noticed; nor is a roster put back to one that was signed after what was kept.'
}
