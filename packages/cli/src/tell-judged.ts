import { audit, folderStore, type Run, type Site, systemClock } from '@lockwright/records'
import { sayNote } from './say.js'

/**
 * What the audit will hold against the people and instruments of a run that was entered: paper tells what has been, so it
 * is on record; whoever enters it can still ask those who worked with it.
 */
export async function tellJudged(site: Site, run: Run): Promise<void> {
  const { runs } = await audit({ store: folderStore(site), clock: systemClock, run: run.id, stories: false })
  const found = (runs[0]?.verdicts ?? [])
    .filter(({ question }) => question === 'fit' || question === 'timely')
    .flatMap(({ findings }) => findings)
    // Whoever enters a sheet knows that the ink on it is the signature.
    .filter(({ id }) => id !== 'signed-on-paper')
  if (found.length === 0) return
  sayNote(
    `${found.length === 1 ? 'One thing' : `${found.length} things`} that the audit holds against what was entered:`
  )
  for (const { danger, id, mend, what, where, weight } of found) {
    sayNote(
      `${weight === 'fault' ? 'FAULT' : 'doubt'} ${id}: ${what} (${where})\n  Why it is dangerous: ${danger}\n  What to do: ${mend}`
    )
  }
}
