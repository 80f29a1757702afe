import {
  type KnownSheet,
  openSite,
  parseSerial,
  readRoster,
  type SheetState,
  sheetsOf,
  systemClock,
  voidSheet
} from '@lockwright/records'
import { type ExitCode, exit } from '../exit.js'
import { fromRecords } from '../from-records.js'
import { CannotRun } from '../read-input.js'
import { sayJson, sayLine, sayNote } from '../say.js'
import { shownPath } from '../shown-path.js'

export interface SheetsFlags {
  readonly out?: true
  readonly format: 'text' | 'json'
}

export interface VoidFlags {
  readonly reason: string
  readonly by: string
}

export function listSheets(folder: string, flags: SheetsFlags): ExitCode {
  const { faults, sheets } = sheetsOf(fromRecords(openSite(folder)))
  const asked = sheets.filter(({ state }) => flags.out !== true || isOut(state))
  if (flags.format === 'json') sayJson({ format: 'lockwright-sheets/1', sheets: asked, faults })
  else sayLine(asked.length === 0 ? noneText(flags) : asked.map(sheetText).join('\n'))
  for (const { danger, file, mend, what } of faults) {
    sayNote(`${shownPath(file)}: ${what}\n  Why it is dangerous: ${danger}\n  What to do: ${mend}`)
  }
  return faults.length === 0 ? exit.well : exit.findings
}

export function declareVoid(folder: string, typed: string, { by, reason }: VoidFlags): ExitCode {
  const site = fromRecords(openSite(folder))
  const serial = fromRecords(parseSerial(typed))
  const known = sheetsOf(site).sheets.find(({ sheet }) => sheet.serial === serial)
  if (known !== undefined && known.runs.length > 0) {
    throw new CannotRun(
      `sheet ${serial} was entered as run \`${known.runs[0]}\`: it is on record and cannot be void. If that run is open, go on with it or stop it.`
    )
  }
  const roster = readRoster(site)
  if (roster.ok && !roster.value.people.some(({ id }) => id === by)) {
    throw new CannotRun(`nobody on the roster has the id \`${by}\`; give the id as \`people list\` shows it.`)
  }
  if ((reason.match(/\p{L}/gu) ?? []).length < 5) {
    throw new CannotRun(
      `\`${reason}\` does not say what became of the paper. Say it so that an auditor can ask after it: --reason "Coffee over page 2".`
    )
  }
  const { at } = systemClock.now()
  fromRecords(voidSheet(site, { serial, reason, at, by }))
  sayNote(`sheet ${serial} is void from ${at} on: ${reason.trim()}`)
  return exit.well
}

function isOut({ kind }: SheetState): boolean {
  return kind === 'out' || kind === 'partly-entered'
}

function sheetText({ sheet, state }: KnownSheet): string {
  const { by, generations, languages, procedure, revision, serial } = sheet
  const made = [...Object.entries(generations).map(([axis, value]) => `${axis} ${value}`), ...languages].join(', ')
  return `${serial}  ${procedure} revision ${revision} (${made})${by === undefined ? '' : `, printed by ${by}`}\n    ${stateText(state)}`
}

function stateText(state: SheetState): string {
  switch (state.kind) {
    case 'out':
      return `out since ${state.since}`
    case 'partly-entered':
      return `partly entered as run ${state.run}, begun ${state.since}`
    case 'entered':
      return `entered as run ${state.run}, which ended ${state.since}`
    case 'void':
      return `void since ${state.since}${state.by === null ? '' : `, by ${state.by}`}: ${state.reason}`
  }
}

function noneText({ out }: SheetsFlags): string {
  return out === true
    ? 'No sheet is out.'
    : 'No sheet was printed for this site: lockwright print FILE --site SITE --out FILE.pdf'
}
