import { type Command, Option } from 'commander'
import { gathered } from '../gathered.js'

/** The options that everything printed from a proved procedure shares. */
export function withHangOptions(command: Command, papers: readonly string[]): Command {
  return command
    .argument('<file>', 'a procedure (Markdown)')
    .requiredOption('-o, --out <file>', 'where to write the PDF')
    .addOption(new Option('--paper <size>', 'paper size').choices(papers).default('a4'))
    .option('--for <axis=value>', 'for one generation of the hardware alone; may be given once an axis', gathered)
    .addOption(
      new Option('--language <language>', 'language of the fixed wording, dates and numbers').choices([
        'en',
        'es',
        'de',
        'fr'
      ])
    )
    .option('--site <folder>', 'site whose issued procedures count')
}

/** How each of them ends its help. */
export const hangExits = `
Only a procedure that is proved is printed. Without --site, or where no coordinator has issued exactly this
procedure in that site, it is marked DRAFT. It replaces neither the plant's rules nor local codes nor qualified people.

Exit codes: 0 printed; 1 not proved (the findings are shown); 2 could not run, also where a text does not fit.`
