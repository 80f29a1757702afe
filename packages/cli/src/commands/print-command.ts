import { type Command, Option } from 'commander'
import { gathered } from '../gathered.js'
import type { PrintFlags } from './print.js'

const help = `
The sheet holds the equipment, the scope, every energy source with how it is isolated, released and verified,
and every step with its boxes, readings, lock numbers, initials and times. It is legible in black and white.

Only a procedure that is proved is printed. Without --site, or where no coordinator has issued exactly this
procedure in that site, every page is marked DRAFT.

Examples:
  lockwright print procedures/booster-pump-precharge.md --out sheet.pdf
  lockwright print procedures/booster-pump-precharge.md --out sheet.pdf --paper letter
  lockwright print procedures/booster-pump-precharge.md --out sheet.pdf --for cabinet=series-s --site site

Exit codes: 0 printed; 1 not proved (the findings are shown); 2 could not run.`

export function printCommand(lockwright: Command): void {
  lockwright
    .command('print')
    .summary('print the checklist as a PDF')
    .description('Print a proved procedure as a checklist that a technician can work from.')
    .argument('<file>', 'a procedure (Markdown)')
    .requiredOption('-o, --out <file>', 'where to write the PDF')
    .addOption(new Option('--paper <size>', 'paper size').choices(['a4', 'letter']).default('a4'))
    .option('--for <axis=value>', 'print one generation of the hardware alone; may be given once an axis', gathered)
    .option('--site <folder>', 'site whose issued procedures count')
    .addHelpText('after', help)
    .action(async (file: string, options: PrintFlags) => {
      const { print } = await import('./print.js')
      process.exitCode = await print(file, options)
    })
}
