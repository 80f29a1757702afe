import { type Command, Option } from 'commander'
import { gathered } from '../gathered.js'
import type { PrintFlags } from './print.js'

const help = `
The sheet holds the equipment, the scope, every energy source with how it is isolated, released and verified,
and every step with its boxes, readings, lock numbers, initials and times. It is legible in black and white.

Only a procedure that is proved is printed. Without --site, or where no coordinator has issued exactly this
procedure in that site, every page is marked DRAFT.

Where it is issued, its pictures have to be those that the coordinator signed: with one changed or missing, nothing is
printed, and the picture is named.

With --site the sheet gets a serial number, which stands on each page and in its code, and is recorded: the audit tells
of sheets that never came back (\`lockwright sheets list\`). Without --site it has none, and nobody misses it.

The fixed wording, the dates and the decimals are in the language of the procedure (en, es, de, fr; English where there
are none in it), or as --language says. What the author wrote is never translated: a translation of a procedure is a
file of its own, with the same steps, which --with sets beside it: two columns, one set of blanks. Where its steps are
not the same, nothing is printed, and the first difference is named.

Examples:
  lockwright print procedures/booster-pump-precharge.md --out sheet.pdf
  lockwright print procedures/booster-pump-precharge.md --out sheet.pdf --paper letter
  lockwright print procedures/booster-pump-precharge.md --out sheet.pdf --language de
  lockwright print procedures/booster-pump-precharge.md --out sheet.pdf --languages en,es \\
    --with procedures/translations/booster-pump-precharge.es.md
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
    .addOption(
      new Option('--language <language>', 'language of the fixed wording, dates and numbers').choices([
        'en',
        'es',
        'de',
        'fr'
      ])
    )
    .option('--languages <one,other>', 'set two languages side by side, as `en,es`; needs --with')
    .option('--with <file>', 'the translation to set beside the procedure: a file of its own, the same machine')
    .option('--site <folder>', 'site whose issued procedures count, and which gives the sheet its serial number')
    .option('--by <person>', 'with --site: id of whoever prints it, for the list of sheets')
    .addHelpText('after', help)
    .action(async (file: string, options: PrintFlags, command: Command) => {
      const { print } = await import('./print.js')
      process.exitCode = await print(file, {
        ...options,
        paperAsked: command.getOptionValueSource('paper') === 'cli'
      })
    })
}
