import type { Command } from 'commander'
import type { HangFlags } from './hang.js'
import { hangExits, withHangOptions } from './hang-options.js'

const help = `
One tag for each isolating device, 80 by 130 mm, front and back beside each other: cut, fold, punch the hole.
The front bears the legends of 29 CFR 1910.147(c)(5)(iii) and room for the name of whose lock it is, department,
date, lock number and the time by which it is expected to be off; the back what the device cuts off and its safe
position. Paper alone is no tag: put it into a pouch that stands the place, and hang it with a lock, by a means
that holds as that paragraph asks.
${hangExits}

Examples:
  lockwright tags procedures/booster-pump-precharge.md --out tags.pdf`

export function tagsCommand(lockwright: Command): void {
  const command = lockwright
    .command('tags')
    .summary('print a tag for each isolating device')
    .description('Print the tags that hang with the locks: one for each isolating device of a proved procedure.')
  withHangOptions(command, ['a4', 'letter'])
    .addHelpText('after', help)
    .action(async (file: string, options: HangFlags) => {
      const { hang } = await import('./hang.js')
      process.exitCode = await hang('tags', file, options)
    })
}
