import { type Command, Option } from 'commander'
import type { AuditFlags } from './audit.js'

const help = `
Each run is asked five questions:
  whole      is the chain unbroken, is every signature good, is the run in the site log as it was closed?
  followed   does the journal, replayed over the issued procedure, reach the end that it claims?
  fit        did everyone who signed hold the qualification then, and does every reading lie within limits?
  timely     did waits really wait, did no clock run back, did no lock outlast its shift?
  due        is the run still open, does a lock still hang?
Of the records as a whole is asked whether the log fits the checkpoint that you kept, whether a run was removed,
which periodic inspections are overdue (29 CFR 1910.147(c)(6); at least annually is counted as no more than 365 days
from the last sound one), which sheets never came back and which qualifications and calibrations run out.

Reads only; nothing in the site is changed. Give --trusted with the root key that you know from elsewhere:
without it the audit believes the root key that lies in the folder, and says so. Give --checkpoint with a checkpoint
that you kept: without it a run that was removed together with its place in the log is not noticed. With --new-only
the runs that the checkpoint covers are not read again: that the log still begins with them is shown by its root, and
locks that they left are told from the log.

With --keep the audit writes a file for you to take home: the last checkpoint that was signed over the log, and what
the runs that it covers left (which they are, locks, sheets), with the date. Give it as --checkpoint next time; with
--new-only an audit then costs what the new runs cost, however many there are before. Keep it where nobody at the
site can change it: nothing in it is signed but the checkpoint.

A signature made with a key that was stolen later may have been dated back. In a run that your checkpoint covers it
was not, if you had the checkpoint before the theft. A file of --keep has its date; of a bare checkpoint, say since
when you have it with --kept-since. The audit goes by your word for that.

--since, --equipment and --person choose among the runs; the report says how many were left out.

Examples:
  lockwright audit site
  lockwright audit site --hanging
  lockwright audit site --html audit.html --pdf audit.pdf --csv audit.csv
  lockwright audit site --checkpoint kept.txt --new-only --since 2026-01-01
  lockwright audit site --checkpoint kept-2026-03.json --new-only --keep kept-2026-04.json
  lockwright audit site/runs/20260302-p-202-1f0c9a7e.jsonl
  lockwright audit copies/ --site site
  lockwright audit site --format sarif

Exit codes: 0 every answer is good; 1 there are findings, or something cannot be told; 2 could not run.`

export function auditCommand(lockwright: Command): void {
  lockwright
    .command('audit')
    .summary('check the record of a run, or of all runs of a site')
    .description('Check the record of one run, of a folder of runs, or of all runs: whole, followed, fit, timely, due.')
    .argument(
      '<run-or-site>',
      'a site folder, the address of a shared store, a journal (*.jsonl) or a folder of journals'
    )
    .option('--site <folder>', 'where roster and procedures lie, for journals that lie elsewhere')
    .option('--trusted <key>', "thumbprint or public key of the site's root key, as you know it from elsewhere")
    .option('--checkpoint <file>', 'a checkpoint of the site log that you kept elsewhere, or what --keep wrote')
    .option('--kept-since <date>', 'since when you have that checkpoint (2026-03-02, in UTC)')
    .option('--keep <file>', 'also write what you keep elsewhere until the next audit')
    .option('--new-only', 'leave out the runs that the checkpoint covers')
    .option('--since <date>', 'runs in which something happened on that day (2026-03-02) or later')
    .option('--equipment <tag>', 'runs of this equipment')
    .option('--person <id>', 'runs in which this person stands')
    .option('--hanging', 'only what hangs now: every lock still on, whose, since when')
    .option('--brief', 'verdicts and findings without the story of each run')
    .option('--html <file>', 'also write the report as one self-contained page')
    .option('--pdf <file>', 'also write the report as a PDF')
    .option('--csv <file>', 'also write the findings as a table (RFC 4180)')
    .addOption(new Option('--paper <size>', 'paper of the PDF').choices(['a4', 'letter']).default('a4'))
    .addOption(
      new Option('--format <format>', 'how to print the report')
        .choices(['text', 'json', 'csv', 'sarif', 'schema'])
        .default('text')
    )
    .addHelpText('after', help)
    .action(async (target: string, options: AuditFlags) => {
      const { auditRecords } = await import('./audit.js')
      process.exitCode = await auditRecords(target, options)
    })
}
