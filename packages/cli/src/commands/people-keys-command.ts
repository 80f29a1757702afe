import type { Command } from 'commander'
import type { KeyFlags, PassphraseFlags, RootChangeFlags, StolenFlags } from './people-keys.js'
import { newFile, ownFile, rootFile } from './people-options.js'

const codes = 'Exit codes: 0 done; 2 could not run.'

/** What becomes of keys: exchanged, lost, stolen; of a person and of the site. */
export function addKeyCommands(people: Command): void {
  people
    .command('passphrase')
    .summary('change the passphrase of a key, the key stays')
    .description('Change the passphrase of a key; the key and all that it signed stay as they are.')
    .addHelpText(
      'after',
      `
For the root key give \`site-root\` as the id. If someone may have seen the old passphrase and copied the key file,
a new passphrase does not help: the copy still opens with the old one. Then: \`people stolen\`.

Example:
  lockwright people passphrase tor --site site

${codes}`
    )
    .argument('<id>', 'id of the person, or site-root')
    .requiredOption('--site <folder>', 'site folder')
    .option(
      '--passphrase-file <file>',
      'file with the passphrase that opens the key now (else LOCKWRIGHT_PASSPHRASE, else it is asked for)'
    )
    .addOption(newFile())
    .action(async (id: string, options: PassphraseFlags) =>
      (await import('./people-keys.js')).newPassphrase(id, options)
    )
  people
    .command('rotate')
    .summary('give a person a new key in good order; what the old one signed stays good')
    .description('Give a person a new key in good order; what the old one signed until now stays good.')
    .addHelpText(
      'after',
      `
The new key signs from now on and the old one no more; its file is replaced. Who never had a key gets a first one.

Example:
  lockwright people rotate tor --site site

${codes}`
    )
    .argument('<id>', 'id of the person')
    .requiredOption('--site <folder>', 'site folder')
    .addOption(ownFile())
    .addOption(rootFile())
    .action(async (id: string, options: KeyFlags) => (await import('./people-keys.js')).rotate(id, options))
  people
    .command('lost')
    .summary('end a key whose file or passphrase is gone, and make a new one')
    .description(
      'End a key whose file or passphrase is gone, and make a new one. Nobody else can have it: else `people stolen`.'
    )
    .addHelpText(
      'after',
      `
Examples:
  lockwright people lost tor --site site
  lockwright people lost tor --no-key --site site        end it, and make none

${codes}`
    )
    .argument('<id>', 'id of the person')
    .requiredOption('--site <folder>', 'site folder')
    .option('--no-key', 'make no new key')
    .addOption(ownFile())
    .addOption(rootFile())
    .action(async (id: string, options: KeyFlags) => (await import('./people-keys.js')).lost(id, options))
  people
    .command('stolen')
    .summary('let nothing count that a key signed since it may be in other hands, and make a new one')
    .description('Let nothing count that a key signed since it may be in other hands, and make a new one.')
    .addHelpText(
      'after',
      `
--since is the last time at which the key was surely still in safe hands. Whatever it signed after that counts for
nothing, and \`audit\` names every run concerned. What bears an earlier date may have been dated back by the thief:
the audit doubts it, unless a checkpoint of the site log that someone kept from before covers the run.
Keys that were made since then count as stolen as well.

Example:
  lockwright people stolen tor --since 2026-03-02T08:00:00Z --site site

${codes}`
    )
    .argument('<id>', 'id of the person')
    .requiredOption('--site <folder>', 'site folder')
    .requiredOption('--since <time>', 'RFC 3339 time at which it was surely still in safe hands')
    .option('--no-key', 'make no new key')
    .addOption(ownFile())
    .addOption(rootFile())
    .action(async (id: string, options: StolenFlags) => (await import('./people-keys.js')).stolen(id, options))
  addRootCommands(people)
}

function addRootCommands(people: Command): void {
  people
    .command('root-rotate')
    .summary('exchange the root key of the site in good order')
    .description('Exchange the root key of the site in good order: the old one signs over to the new one.')
    .addHelpText(
      'after',
      `
Prints the new thumbprint. Whoever knows the old one can go on with it: \`audit --trusted\` follows the handover. Pass
the new one on all the same: a copy of the old key that someone kept could hand over to a key of their own.

Example:
  lockwright people root-rotate --site site

${codes}`
    )
    .requiredOption('--site <folder>', 'site folder')
    .addOption(newFile())
    .addOption(rootFile())
    .action(async (options: RootChangeFlags) => (await import('./people-keys.js')).rotateSite(options))
  people
    .command('root-lost')
    .summary('make a new root key where the old one or its passphrase is gone')
    .description('Make a new root key where the old one or its passphrase is gone.')
    .addHelpText(
      'after',
      `
The old key can hand nothing over, so the new thumbprint, which is printed, has to reach every auditor by another way
than the site folder: by word of mouth, on paper. Until then their audit refuses the roster, as it has to.
The roster is signed anew as it stands: look at every line of it.

Example:
  lockwright people root-lost --site site

${codes}`
    )
    .requiredOption('--site <folder>', 'site folder')
    .addOption(newFile())
    .action(async (options: RootChangeFlags) => (await import('./people-keys.js')).loseSite(options))
  people
    .command('root-stolen')
    .summary('make a new root key where someone else may have the old one')
    .description('Make a new root key where someone else may have the old one.')
    .addHelpText(
      'after',
      `
Whoever has the root key can put people, qualifications and instruments on the lists. So look at every line of the
roster that is printed, against a copy from before the theft; then pass the new thumbprint on as after \`root-lost\`.

Example:
  lockwright people root-stolen --since 2026-03-02T08:00:00Z --site site

${codes}`
    )
    .requiredOption('--site <folder>', 'site folder')
    .requiredOption('--since <time>', 'RFC 3339 time at which it was surely still in safe hands')
    .addOption(newFile())
    .action(async (options: RootChangeFlags & { readonly since: string }) =>
      (await import('./people-keys.js')).stealSite(options)
    )
}
