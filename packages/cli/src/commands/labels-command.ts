import type { Command } from 'commander'
import type { HangFlags } from './hang.js'
import { hangExits, withHangOptions } from './hang-options.js'

const help = `
A label for each isolating device, to stick beside it: its id, what it is and where, its safe position, each source
that it cuts off, what behind it stays charged, and a code that names procedure, revision and digest.
A label is 95 by 50 mm, two across and five down, in the middle of the page: our own grid, to be cut or to be fed
as a sheet of that grid.
${hangExits}

Examples:
  lockwright labels procedures/booster-pump-precharge.md --out labels.pdf`

export function labelsCommand(lockwright: Command): void {
  const command = lockwright
    .command('labels')
    .summary('print a label for each isolating device')
    .description('Print labels for the isolating devices of a proved procedure.')
  withHangOptions(command, ['a4', 'letter'])
    .addHelpText('after', help)
    .action(async (file: string, options: HangFlags) => {
      const { hang } = await import('./hang.js')
      process.exitCode = await hang('labels', file, options)
    })
}
