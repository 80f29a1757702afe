import {
  checkJournalOfProof,
  checkLog,
  checkProofFile,
  formatNoteKey,
  type LogChecked,
  type LogFinding,
  openSite,
  type ProvenRun,
  parseNoteKey,
  proveRun,
  readKept,
  readRoster,
  signLog
} from '@lockwright/records'
import { type ExitCode, exit } from '../exit.js'
import { fromRecords } from '../from-records.js'
import { CannotRun, readInput } from '../read-input.js'
import { sayJson, sayLine, sayNote } from '../say.js'
import { shownPath } from '../shown-path.js'
import { unlockRoot } from '../unlock-key.js'
import { writeOutput } from '../write-output.js'

export interface CheckpointFlags {
  readonly rootPassphraseFile?: string
}

export interface ProveFlags {
  readonly out?: string
  readonly trusted?: string
}

export interface CheckFlags {
  readonly checkpoint?: string
  readonly trusted?: string
  readonly new?: true
  readonly proof?: string
  readonly key?: string
  readonly journal?: string
  readonly format: 'text' | 'json'
}

export async function checkpoint(folder: string, flags: CheckpointFlags): Promise<ExitCode> {
  const site = fromRecords(openSite(folder))
  const root = await unlockRoot(site, { site: folder, ...flags })
  const signed = fromRecords(signLog(site, root))
  for (const what of signed.repaired) sayNote(what)
  if (signed.added > 0) sayNote(`${count(signed.added, 'closed run')} had no leaf in the log yet and got one.`)
  process.stdout.write(signed.note)
  const roster = fromRecords(readRoster(site))
  sayNote(`Signed over ${count(signed.size, 'closed run')}. Keep these lines in a place of your own, to the letter.`)
  sayNote('Whether the journals are still those that were closed, `lockwright log check` tells.')
  sayNote(`Key for whoever checks them: ${formatNoteKey({ name: signed.origin, key: roster.root })}`)
  return exit.well
}

export function prove(folder: string, run: string, flags: ProveFlags): ExitCode {
  const proof = fromRecords(proveRun(fromRecords(openSite(folder)), run, flags.trusted))
  const file = flags.out ?? `${run}.tlog-proof`
  writeOutput(file, proof)
  sayNote(`wrote ${file}; \`lockwright log check --proof ${file} --key KEY\` checks it anywhere`)
  return exit.well
}

export function check(folder: string | undefined, flags: CheckFlags): ExitCode {
  if (flags.proof !== undefined) return checkProof(flags.proof, folder, flags)
  if (folder === undefined) throw new CannotRun('give the site folder, or a proof with --proof.')
  const site = fromRecords(openSite(folder))
  const checked = fromRecords(
    checkLog({
      site,
      ...(flags.checkpoint === undefined ? {} : { kept: noteIn(flags.checkpoint), keptFile: flags.checkpoint }),
      ...(flags.trusted === undefined ? {} : { trusted: flags.trusted }),
      runs: flags.new === true ? 'new' : 'all'
    })
  )
  if (flags.format === 'json') sayJson(jsonOf(checked))
  else sayLine(checkedText(checked, flags))
  return checked.findings.length === 0 ? exit.well : exit.findings
}

/** The checkpoint of a file: that alone, or what `audit --keep` wrote. */
function noteIn(file: string): string {
  return fromRecords(readKept(readInput(file).toString('utf8'), file)).note
}

function checkProof(file: string, folder: string | undefined, flags: CheckFlags): ExitCode {
  const key = keyGiven(folder, flags)
  const proven = fromRecords(checkProofFile(readInput(file).toString('utf8'), file, key))
  const finding = flags.journal === undefined ? null : checkJournalOfProof(journalOf(flags.journal), proven)
  if (flags.format === 'json') sayJson({ ...proven.leaf, number: proven.number, findings: finding ? [finding] : [] })
  else sayLine([provenText(proven, flags), ...(finding === null ? [] : ['', findingText(finding)])].join('\n'))
  return finding === null ? exit.well : exit.findings
}

function journalOf(file: string): { readonly file: string; readonly bytes: Uint8Array } {
  return { file, bytes: readInput(file) }
}

function keyGiven(folder: string | undefined, { key }: CheckFlags) {
  if (key !== undefined) return key.includes('+') ? noteKey(key) : key
  if (folder !== undefined) return fromRecords(readRoster(fromRecords(openSite(folder)))).root
  throw new CannotRun(
    'give the root key of the site with --key, as `log checkpoint` told it. One that came with the proof proves nothing.'
  )
}

function noteKey(text: string) {
  const parsed = parseNoteKey(text)
  if (parsed !== null) return parsed
  throw new CannotRun(`\`${text}\` is no key in the form that \`log checkpoint\` tells, or it was not copied whole.`)
}

function checkedText(checked: LogChecked, flags: CheckFlags): string {
  const { from, kept, size, origin, findings } = checked
  const looked =
    from === 0
      ? `${count(size, 'leaf', 'leaves')} held against the journals`
      : `${count(size - from, 'leaf', 'leaves')} since the checkpoint held against the journals; journals from before it were not looked at`
  return [
    `Log ${origin ?? '(no roster could be read, so it has no name)'}`,
    `  ${count(size, 'leaf', 'leaves')}, root ${Buffer.from(checked.root).toString('base64')}`,
    kept === null
      ? '  Held against no checkpoint: a folder that was replaced whole would look like this one.'
      : `  Held against the checkpoint ${flags.checkpoint ?? ''} over ${count(kept.size, 'leaf', 'leaves')}.`,
    ...(flags.trusted === undefined && kept !== null
      ? ['  The root key was taken from the folder: compare its thumbprint, or give it with --trusted.']
      : []),
    `  ${looked}.`,
    '',
    findings.length === 0
      ? kept === null
        ? 'Nothing was found.'
        : 'Nothing was removed, rewritten, put in or moved.'
      : findings.map(findingText).join('\n\n')
  ].join('\n')
}

function findingText({ id, weight, file, what, danger, mend }: LogFinding): string {
  const [path = '', line] = file.split(/:(?=\d+$)/)
  const where = `${shownPath(path)}${line === undefined ? '' : `:${line}`}`
  return [
    `${weight === 'fault' ? 'finding' : 'doubt  '} ${id}  ${where}`,
    `  ${what}`,
    `  Why it is dangerous: ${danger}`,
    `  What to do: ${mend}`
  ].join('\n')
}

function provenText({ checkpoint: { origin, size }, leaf, number }: ProvenRun, { journal }: CheckFlags): string {
  const { closedAt, entries, equipment, head, locks, procedure, revision, run, status } = leaf
  return [
    `Run ${run} is in the log ${origin}, as leaf ${number} of ${size}.`,
    `  ${equipment}, ${procedure} revision ${revision}${leaf.mode === 'draft' ? ', a draft' : ''}`,
    `  ${status} ${closedAt}, after ${count(entries, 'entry', 'entries')}`,
    `  last line of its journal: SHA-256 ${head}`,
    ...(locks.length === 0 ? ['  no lock hung when it was closed'] : []),
    ...locks.map(({ by, lock, point, since }) => `  still on: lock ${lock} of ${by} on ${point}, since ${since}`),
    ...(journal === undefined ? ['  No copy of the journal was given; with --journal it is held against this.'] : [])
  ].join('\n')
}

function jsonOf({ root, kept, ...rest }: LogChecked): object {
  const base64 = (bytes: Uint8Array): string => Buffer.from(bytes).toString('base64')
  return {
    format: 'lockwright-log-check/1',
    ...rest,
    root: base64(root),
    kept: kept === null ? null : { ...kept, root: base64(kept.root) }
  }
}

function count(amount: number, one: string, many = `${one}s`): string {
  return `${amount} ${amount === 1 ? one : many}`
}
