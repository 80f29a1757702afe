import type { Command } from 'commander'
import type { HangFlags } from './hang.js'
import { hangExits, withHangOptions } from './hang-options.js'

const help = `
One page to hang beside the machine: the energy sources with their magnitude, the isolating devices with place and
safe position, how each energy is let out and verified, the order, the cautions, whom to call, revision and digest.

It is set as large as the page allows. Where it does not fit at a size that can be read, the scope, then the order,
then the stored energies are left out, and the placard says so; no source, device, restraint or caution ever is:
it is refused instead.
${hangExits}

Examples:
  lockwright placard procedures/booster-pump-precharge.md --out placard.pdf
  lockwright placard procedures/booster-pump-precharge.md --out placard.pdf --paper a3 --for cabinet=series-s`

export function placardCommand(lockwright: Command): void {
  const command = lockwright
    .command('placard')
    .summary('print the one page that hangs beside the machine')
    .description('Print the placard of a proved procedure: its energies, devices and their order on one page.')
  withHangOptions(command, ['a4', 'letter', 'a3'])
    .addHelpText('after', help)
    .action(async (file: string, options: HangFlags) => {
      const { hang } = await import('./hang.js')
      process.exitCode = await hang('placard', file, options)
    })
}
