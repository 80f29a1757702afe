import { type Command, Option } from 'commander'
import type { CheckpointFlags } from './store.js'

const help = `
A shared store is a PostgreSQL database that several benches or sites send their records to (\`lockwright sync\`), and
that the audit reads (\`lockwright audit postgres://...\`). Its owner makes it once:

  createdb sandholm
  lockwright store migrate postgres://owner@records.example/sandholm

Then give each bench a login that can add and read, and nothing else, and each auditor one that can only read:

  CREATE ROLE tablet_1 LOGIN PASSWORD '...' IN ROLE lockwright_runner;
  CREATE ROLE auditor_1 LOGIN PASSWORD '...' IN ROLE lockwright_auditor;

Exit codes: 0 done; 2 could not run, or refused.`

export function storeCommand(lockwright: Command): void {
  const store = lockwright
    .command('store')
    .summary('make and look after a shared store in PostgreSQL')
    .description('Make and look after a shared store in PostgreSQL.')
    .addHelpText('after', help)
  store
    .command('migrate')
    .summary('make the tables, triggers and roles, or bring them up to date')
    .description('Make the tables, triggers and roles of a shared store, or bring them up to date; as the owner.')
    .argument('[address]', 'postgres://owner@host:port/database (else LOCKWRIGHT_STORE)')
    .addHelpText(
      'after',
      `
All of it is done or nothing. Doing it again does no harm. A step that was applied and differs from the one that this
program has is refused: the database may then lack what keeps its records from being changed.

The first time, the owner has to be allowed to make roles (CREATEROLE), unless lockwright_runner and
lockwright_auditor are there already.

Exit codes: 0 up to date; 2 could not run, or refused.`
    )
    .action(async (address: string | undefined) => (await import('./store.js')).migrateStore(address))
  store
    .command('checkpoint')
    .summary('sign what the log of the shared store is now')
    .description('Sign what the log of the shared store is now, with the root key of the site.')
    .argument('[address]', 'postgres://user@host:port/database (else LOCKWRIGHT_STORE)')
    .requiredOption('--site <folder>', 'site folder that holds the root key')
    .addOption(
      new Option(
        '--root-passphrase-file <file>',
        "file with the passphrase of the site's root key (else LOCKWRIGHT_ROOT_PASSPHRASE, else it is asked for)"
      )
    )
    .addHelpText(
      'after',
      `
Prints the checkpoint: keep it elsewhere. Given to \`lockwright audit\` later, it shows whether anything that the log
held by then was removed or rewritten since. Several folders add to this log, so its leaves stand in another order than
in any of them, and their checkpoints do not fit it.

Exit codes: 0 signed; 2 could not run, or refused.`
    )
    .action(async (address: string | undefined, options: CheckpointFlags) =>
      (await import('./store.js')).signStore(address, options)
    )
}
