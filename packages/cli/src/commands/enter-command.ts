import type { Command } from 'commander'
import { gathered } from '../gathered.js'
import type { EnterFlags } from './enter.js'

const help = `
The file of answers is that of \`step --answers\` (see its help), with \`clock:\` and, on each entry, the \`time:\` that
stands on the sheet. The answers go through the same checks as on the screen; one that the procedure does not
take is refused with its line, and what stood before it stays entered: correct the sheet and enter the whole of it
again with --run. The record says for good that the run was
entered from paper, by whom and when. Whoever enters it signs for having copied it; the ink on the sheet stays
the signature of those who signed there, so keep the sheet.

The PDF itself can be given where it was filled in on a screen: what stands in its form is written down as a file of
answers beside it, and that is entered. Whoever gave the initials is looked up on the roster.

A sheet that was printed with --site has a serial number on each page. The filled PDF says it by itself; with answers
that were typed, give it with --sheet: only then the sheet counts as come back, and it cannot be entered twice. What is
not filled in yet is not entered; the run stays open, and the sheet is gone on with by --run later: then the whole of it
is given again, and where it differs from what is on record, that is told and nothing is recorded.

An entry names its step by the number on the sheet (\`step: 9\`) or by its id (\`at: lock-out.9\`); of a sheet for one
generation, --sheet says which numbers are meant. Where a reading said that something was live, \`reason:\` says why.

Nothing is recorded for a time that is still to come, and no wait whose written times are shorter than it has to be.
What the audit holds against the people, instruments and times of what was entered is told at once.

Examples:
  lockwright enter procedures/booster-pump-precharge.md sheet-0412.yaml --site site --by mira
  lockwright enter procedures/booster-pump-precharge.md sheet-0412.yaml --site site --by mira --run 20260412-bp-1-a1b2c3d4
  lockwright enter procedures/booster-pump-precharge.md filled.pdf --site site --by mira --sheet 7M2-PSZ3 --scan page-1.jpg

Exit codes: 0 all that was given is entered; 1 an answer was refused, or not proved; 2 could not run.`

export function enterCommand(lockwright: Command): void {
  lockwright
    .command('enter')
    .summary('enter a completed sheet of paper into the record')
    .description('Enter the answers of a completed sheet of paper into the record.')
    .argument('<file>', 'the procedure (Markdown) that was printed')
    .argument('<answers>', 'the answers on the sheet (YAML), or the filled PDF itself')
    .requiredOption('--site <folder>', 'site folder')
    .requiredOption('--by <person>', 'id of whoever enters it')
    .option('--worked-by <person>', 'id of whoever worked with the sheet, where it was somebody else')
    .option('--run <id>', 'go on with this run, which was entered in part; the sheet is given as a whole')
    .option('--sheet <serial>', 'serial number of the sheet, as it stands on each page')
    .option('--scan <file>', 'the page as it was scanned or photographed, to be kept with the run')
    .option('--date <day>', 'with a filled PDF: day on which the work began, 2026-03-04')
    .option('--time-zone <offset>', 'with a filled PDF: the clock by which its times were written, +01:00 or UTC')
    .option(
      '--initials <who>',
      'with a filled PDF: whose initials they are, TL=tor; may be given several times',
      gathered
    )
    .option(
      '--passphrase-file <file>',
      'file with the passphrase of whoever enters it (else LOCKWRIGHT_PASSPHRASE, else asked for)'
    )
    .addHelpText('after', help)
    .action(async (file: string, answers: string, options: EnterFlags) => {
      const { enter } = await import('./enter.js')
      process.exitCode = await enter(file, answers, options)
    })
}
