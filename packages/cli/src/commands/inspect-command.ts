import type { Command } from 'commander'
import { gathered } from '../gathered.js'
import type { InspectFlags } from './inspect.js'

const help = `
29 CFR 1910.147(c)(6) asks for an inspection of each procedure at least annually, by an authorized employee other than
those who use it; deviations that are found have to be corrected, and the inspector goes through the responsibilities
under the procedure with each authorized employee. The employer certifies it: machine or equipment, date, employees
included, person who performed it. This signs that record, under inspections/ in the site folder.

It is refused where the inspector is among the employees included, or stands in a run of that procedure since the last
inspection and for a year at the least, or holds on that day nothing that a role of the procedure asks for.
Whoever worked by the procedure in that time and is not named with --reviewed is written down as outstanding.

Examples:
  lockwright inspect site P202-PRECHARGE --by runa --employee odd --employee liv --reviewed odd --reviewed liv
  lockwright inspect site P202-PRECHARGE --by runa --employee odd --reviewed odd --watched 20260302-p-202-1f0c9a7e \\
    --deviation "The tester was not tried before => Gone through with odd the same day" --pdf certificate.pdf

Exit codes: 0 signed; 2 could not be signed.`

export function inspectCommand(lockwright: Command): void {
  lockwright
    .command('inspect')
    .summary('sign the record of a periodic inspection')
    .description('Sign the record of a periodic inspection of a procedure (29 CFR 1910.147(c)(6)).')
    .argument('<site>', 'site folder')
    .argument('<procedure>', 'id of the procedure, as it was issued')
    .requiredOption('--by <person>', 'id of whoever inspected')
    .requiredOption('--employee <person>', 'id of an employee who was included; once for each', gathered)
    .option(
      '--reviewed <person>',
      'id of an employee with whom responsibilities were gone through; once for each',
      gathered
    )
    .option('--deviation <text>', '"what was found => what was done about it"; once for each', gathered)
    .option('--watched <run>', 'run that was watched')
    .option('--on <date>', 'day of the inspection (2026-03-02); else today, in UTC')
    .option('--pdf <file>', 'also write the certificate as a page to print')
    .option(
      '--passphrase-file <file>',
      'file with the passphrase of the inspector (else LOCKWRIGHT_PASSPHRASE, else asked for)'
    )
    .addHelpText('after', help)
    .action(async (site: string, procedure: string, options: InspectFlags) => {
      const { inspectProcedure } = await import('./inspect.js')
      process.exitCode = await inspectProcedure(site, procedure, options)
    })
}
