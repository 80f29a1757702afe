import { bad, good, type RecordsResult } from '../result.js'
import type { Roster } from '../roster.js'
import { rootKeysOf } from '../roster-keys.js'
import { type Checkpoint, parseCheckpoint } from './checkpoint.js'
import { originsOf } from './origin.js'
import { type NoteKey, openNote } from './signed-note.js'

/**
 * A checkpoint of a log of this site, its signature checked. `file`: where it came from, for the message. `names`: what
 * the log may call itself; left out, what that of a folder does.
 */
export function openCheckpointOf(
  roster: Roster,
  note: string,
  file: string,
  names: readonly [string, ...string[]] = originsOf(roster)
): RecordsResult<Checkpoint> {
  const claimed = parseCheckpoint(`${note.split('\n\n')[0]}\n`)
  if (claimed === null) return noCheckpoint(file)
  if (!names.includes(claimed.origin)) return ofAnother(file, claimed.origin, names[0])
  return openCheckpoint(
    note,
    rootKeysOf(roster).map((key) => ({ name: claimed.origin, key })),
    file
  )
}

/** A checkpoint that one of these keys signed. */
export function openCheckpoint(note: string, keys: readonly NoteKey[], file: string): RecordsResult<Checkpoint> {
  const opened = openNote(note, keys)
  if (!opened.ok) return unsound(file, opened.why)
  const checkpoint = parseCheckpoint(opened.text)
  if (checkpoint === null) return noCheckpoint(file)
  return opened.by.some(({ name }) => name === checkpoint.origin)
    ? good(checkpoint)
    : unsound(file, 'whoever signed it bears another name than the log')
}

function noCheckpoint(file: string): RecordsResult<never> {
  return bad({
    id: 'no-checkpoint',
    file,
    what: 'This is no checkpoint of a log, or it was not copied whole.',
    danger: 'Nothing can be held against it, so a run that was removed or rewritten would not be noticed.',
    mend: 'Give the whole text that `log checkpoint` printed, down to the line that begins with a dash, with its line ends.'
  })
}

function ofAnother(file: string, origin: string, own: string): RecordsResult<never> {
  return bad({
    id: 'checkpoint-of-another-site',
    file,
    what: `The checkpoint is of the log \`${origin}\`; the log here is \`${own}\`.`,
    danger: 'It says nothing about the runs of this site. If it is the right one, the site folder was replaced whole.',
    mend: 'Give the checkpoint of this site. If you are sure of it, do not rely on this folder, and have a coordinator look.'
  })
}

function unsound(file: string, why: string): RecordsResult<never> {
  return bad({
    id: 'checkpoint-unsound',
    file,
    what: `The checkpoint cannot be relied on: ${why}.`,
    danger: 'Anyone could have written it, to make a log that was rewritten look like the old one.',
    mend: 'Give the text as it was printed, to the letter, and the root key of the site as you know it from elsewhere.'
  })
}
