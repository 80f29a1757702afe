import { type Command, Option } from 'commander'
import type { SyncFlags } from './sync.js'

const help = `
Sends the roster, the instruments, everything that was issued, attachments, sheets, journals and the site log. What
stands there already is passed over, so that a sync can be done at any time, twice, or again after it was cut off. Open
runs are sent as far as they have come; a torn last line is left out, and private keys are never sent.

Where both have different lines under one number, nothing is merged: the command says which run, which line, and what
each of the two hashes to, and ends with 1. Keep both journals, and have a coordinator find out which of them holds.

Where the shared store has a roster or a list of instruments with a higher number, signed by the same root key, it is
brought down into the folder, so that a key that was revoked meanwhile signs nothing here either.

Examples:
  lockwright sync site --to postgres://tablet_1@records.example/sandholm
  LOCKWRIGHT_STORE=postgres://tablet_1@records.example/sandholm lockwright sync site

Keep the password out of the command line: every user of the computer could read it there. Put it into the address in
LOCKWRIGHT_STORE, into PGPASSWORD or into ~/.pgpass. It is never printed.

Exit codes: 0 all is there; 1 something was refused and has to be looked at; 2 could not run, or was cut off (what was
sent stays; do it again).`

export function syncCommand(lockwright: Command): void {
  lockwright
    .command('sync')
    .summary('send the records of a site folder to a shared store')
    .description('Send the records of a site folder to a shared store, as often as one likes.')
    .argument('<site>', 'site folder')
    .option('--to <address>', 'postgres://user@host:port/database (else LOCKWRIGHT_STORE)')
    .addOption(new Option('--format <format>', 'how to print what was done').choices(['text', 'json']).default('text'))
    .addHelpText('after', help)
    .action(async (site: string, options: SyncFlags) => {
      process.exitCode = await (await import('./sync.js')).sync(site, options)
    })
}
