import { digestOf } from '@lockwright/machine'
import type { ProvedMachine } from '@lockwright/proof'
import { type IssuedPicture, issuedMachine, openSite, unsignedPicture } from '@lockwright/records'
import type { IssueState } from '@lockwright/runner-paper'
import { fromRecords } from './from-records.js'
import { CannotRun } from './read-input.js'
import { sayNote } from './say.js'

/**
 * Whether a coordinator issued exactly this machine in the site; a draft where no site was named, and told why where it is
 * not. What shows pictures gives those that it found: one that is not as it was issued is refused.
 */
export function issueState(
  machine: ProvedMachine,
  folder: string | undefined,
  pictures?: readonly IssuedPicture[]
): IssueState {
  if (folder === undefined) return { kind: 'draft' }
  const issued = issuedMachine(fromRecords(openSite(folder)), digestOf(machine))
  if (issued.ok) {
    const { issue } = issued.value
    const other = pictures === undefined ? null : unsignedPicture(issue, pictures)
    if (other !== null) {
      const { file, what, danger, mend } = other
      throw new CannotRun(
        `${file}: ${what} ${danger} Nothing was printed. ${mend} Without --site it is printed as a DRAFT.`
      )
    }
    return { kind: 'issued', by: issue.name, at: issue.at }
  }
  for (const { what } of issued.faults) sayNote(what)
  return { kind: 'draft' }
}
