import { type Command, Option } from 'commander'
import type { AuditFlags } from './audit.js'

const help = `
Each run is asked four questions:
  whole      is the chain unbroken and is every signature good?
  followed   does the journal, replayed over the issued procedure, reach the end that it claims?
  fit        did everyone who signed hold the qualification then, and does every reading lie within limits?
  timely     did waits really wait, and did no clock run back?

Reads only; nothing in the site is changed. Give --trusted with the root key that you know from elsewhere:
without it the audit believes the root key that lies in the folder, and says so.

Examples:
  lockwright audit site
  lockwright audit site --html audit.html
  lockwright audit site/runs/20260302-p-202-1f0c9a7e.jsonl
  lockwright audit site --format json

Exit codes: 0 every answer is good; 1 there are findings, or something cannot be told; 2 could not run.`

export function auditCommand(lockwright: Command): void {
  lockwright
    .command('audit')
    .summary('check the record of a run, or of all runs of a site')
    .description('Check the record of one run, or of all runs of a site: whole, followed, fit and timely.')
    .argument('<run-or-site>', 'a site folder, or the journal of a run in it (runs/*.jsonl)')
    .option('--trusted <key>', "thumbprint or public key of the site's root key, as you know it from elsewhere")
    .option('--html <file>', 'also write the report as one self-contained page')
    .addOption(new Option('--format <format>', 'how to print the report').choices(['text', 'json']).default('text'))
    .addHelpText('after', help)
    .action(async (target: string, options: AuditFlags) => {
      const { auditRecords } = await import('./audit.js')
      process.exitCode = auditRecords(target, options)
    })
}
