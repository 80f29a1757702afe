import { createInterface } from 'node:readline/promises'
import type { ProvedMachine } from '@lockwright/proof'
import { listRuns, type RunSummary, resumeRun, type Site, systemClock } from '@lockwright/records'
import { tellStanding, wrap } from '@lockwright/runner-terminal'
import { isOpen, keptMachine } from '../open-run.js'
import { CannotRun } from '../read-input.js'
import { sayLine, sayNote } from '../say.js'

/** Every open run of the site with where it stands; on a terminal, the one that was chosen. */
export async function chooseOpenRun(site: Site, named: string | undefined): Promise<OpenOne | null> {
  const { runs, faults } = listRuns(site)
  for (const { file, what, mend } of faults) sayNote(`${file}: ${what} ${mend}`)
  const open = runs.filter(isOpen)
  if (named !== undefined) {
    const found = open.find(({ run }) => run === named)
    if (found === undefined) throw new CannotRun(`no run \`${named}\` is open in ${site.folder}.`)
    return { summary: found, machine: keptMachine(site, found) }
  }
  if (open.length === 0) {
    sayLine('No run is open in this site.')
    return null
  }
  sayLine(`${open.length} open ${open.length === 1 ? 'run' : 'runs'}, the latest opened first:`)
  const listed = open.map((summary) => ({ summary, ...standing(site, summary) }))
  for (const [index, one] of listed.entries()) {
    for (const line of tell(one, index + 1)) sayWrapped(line)
  }
  const chosen = await askWhich(listed)
  return chosen === undefined ? null : { summary: chosen, machine: keptMachine(site, chosen) }
}

export interface OpenOne {
  readonly summary: RunSummary
  readonly machine: ProvedMachine
}

/** An open run with where it stands. */
interface Listed {
  readonly summary: RunSummary
  readonly lines: readonly string[]
  /** Why it cannot be gone on with now; null where it can. */
  readonly barred: string | null
}

/** A line of the list, broken at its words where the window is narrow. */
function sayWrapped(line: string): void {
  const { stdout } = process
  const [lead = ''] = /^ */.exec(line) ?? []
  const lines = stdout.isTTY ? wrap(line, Math.max(20, stdout.columns || 80), `${lead}  `) : [line]
  for (const one of lines) sayLine(one)
}

function tell({ summary, lines }: Listed, number: number): readonly string[] {
  const { run, procedure, revision, equipment, mode, openedAt, openedBy, status } = summary
  const what = `${procedure} rev ${revision} on ${equipment}${mode === 'issued' ? '' : `, ${mode.toUpperCase()}`}`
  return [
    '',
    `${number}. ${what}`,
    `   run ${run}, opened ${openedAt} by ${openedBy}, ${status}`,
    ...lines.map((line) => `   ${line}`)
  ]
}

/** Where it stands, by replaying its journal; a run that somebody has open elsewhere says so instead. */
function standing(site: Site, summary: RunSummary): Omit<Listed, 'summary'> {
  const { run } = summary
  const resumed = resumeRun({ site, run, machine: keptMachine(site, summary), clock: systemClock })
  if (!resumed.ok) {
    const [{ what, mend }] = resumed.faults
    return { lines: [what, mend], barred: `${what} ${mend}` }
  }
  const { setAside } = resumed.value
  try {
    const lines = tellStanding(resumed.value, systemClock.now().at)
    const cut = setAside === null ? [] : [`its last line was cut off in the middle and set aside: ${setAside.file}`]
    return { lines: [...lines, ...cut], barred: null }
  } finally {
    resumed.value.close()
  }
}

async function askWhich(open: readonly Listed[]): Promise<RunSummary | undefined> {
  const { stdin, stdout } = process
  if (!stdin.isTTY) {
    sayNote('Go on with one of them by --run and its id.')
    return undefined
  }
  const asking = createInterface({ input: stdin, output: stdout })
  try {
    for (;;) {
      const line = (await asking.question('\nGo on with which? Its number, or Enter alone to leave: ')).trim()
      if (line === '') return undefined
      const chosen = open[Number(line) - 1] ?? open.find(({ summary }) => summary.run === line)
      if (chosen?.barred === null) return chosen.summary
      sayWrapped(chosen?.barred ?? 'That is none of the numbers above.')
    }
  } finally {
    asking.close()
  }
}
