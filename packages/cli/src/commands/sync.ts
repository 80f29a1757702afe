import { openSite, type SyncCount, type SyncReport, syncSite } from '@lockwright/records'
import { type ExitCode, exit } from '../exit.js'
import { fromRecords } from '../from-records.js'
import { openStore, storeUrl } from '../open-store.js'
import { sayError, sayJson, sayLine, sayNote } from '../say.js'

export interface SyncFlags {
  readonly to?: string
  readonly format: 'text' | 'json'
}

export async function sync(folder: string, flags: SyncFlags): Promise<ExitCode> {
  const site = fromRecords(openSite(folder))
  const store = await openStore(storeUrl(flags.to, '--to'))
  try {
    const report = await syncSite(site, store)
    if (flags.format === 'json') sayJson(report)
    else tell(report)
    if (report.stopped !== null) return exit.couldNot
    return report.findings.length === 0 ? exit.well : exit.findings
  } finally {
    await store.close()
  }
}

function tell(report: SyncReport): void {
  sayLine(table(report).join('\n'))
  for (const note of report.notes) sayNote(note)
  for (const { file, line, what, danger, mend } of report.findings) {
    const place = file === '' ? '' : line === null ? `${file}: ` : `${file}:${line}: `
    sayLine(`\n${place}${what}\n  Why it is dangerous: ${danger}\n  What to do: ${mend}`)
  }
  if (report.stopped === null) return
  sayError(`the sync was cut off. ${report.stopped.what} ${report.stopped.mend}`)
}

function table({ to, signed, documents, runs, leaves, lines, open }: SyncReport): readonly string[] {
  const row = (name: string, ...cells: readonly string[]): string =>
    `  ${name.padEnd(18)}${cells.map((cell) => cell.padStart(14)).join('')}`
  const counts = (name: string, { sent, same, refused }: SyncCount): string =>
    row(name, String(sent), String(same), String(refused))
  const words = { sent: 'sent', same: 'there already', brought: 'brought down', refused: 'refused', none: 'none here' }
  return [
    `To ${to}`,
    row('', 'sent', 'there already', 'refused'),
    counts('documents', documents),
    counts('runs', runs),
    counts('leaves of the log', leaves),
    `  people.yaml: ${words[signed['people.yaml']]}; instruments.yaml: ${words[signed['instruments.yaml']]}`,
    `  ${lines} ${lines === 1 ? 'line' : 'lines'} of journals sent${open === 0 ? '' : `, ${open} of the runs still open`}`
  ]
}
