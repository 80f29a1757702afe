import { type Command, Option } from 'commander'
import { gathered } from '../gathered.js'
import type { AddFlags, InitFlags, ListFlags, QualifyFlags, RevokeFlags, ShiftFlags } from './people.js'
import { addKeyCommands } from './people-keys-command.js'
import { ownFile, rootFile } from './people-options.js'

const help = `
A site is a folder with the roster (people.yaml), their keys, the procedures that were issued and the journal
of every run. The roster is signed with the site's root key; whoever knows its thumbprint can tell whether
someone changed the roster behind the coordinator's back. Keys rest encrypted under a passphrase each, which
has eight characters or more.

Examples:
  lockwright people init --site site --name "Sandholm pumping station"
  lockwright people add mira --name "Mira Holt" --holds coordinator --holds electrical-lv --site site
  lockwright people add tor --name "Tor Lind" --until 2028-01-31 --site site
  lockwright people qualify tor --holds electrical-lv --until 2028-01-31 --site site
  lockwright people list --site site
  lockwright people revoke tor --from 2026-03-02T00:00:00Z --site site
  lockwright people lost tor --site site                 the passphrase is forgotten or the file is gone
  lockwright people stolen tor --since 2026-03-02T00:00:00Z --site site

Whoever holds \`coordinator\` may issue procedures; the other qualifications are those that the roles of the
procedures name in \`holds:\`.

Exit codes: 0 done; 2 could not run.`

export function peopleCommand(lockwright: Command): void {
  const people = lockwright
    .command('people')
    .summary('keep the roster of a site: who may sign what')
    .description('Keep the roster of a site: who may sign what, until when, and with which key.')
    .addHelpText('after', help)
  people
    .command('init')
    .summary('make a site folder with an empty roster under a new root key')
    .description('Make a site folder with an empty roster under a new root key.')
    .addHelpText(
      'after',
      `
Prints the thumbprint of the root key; keep it elsewhere, for \`lockwright audit --trusted\`.

Example:
  lockwright people init --site site --name "Sandholm pumping station"

Exit codes: 0 done; 2 could not run.`
    )
    .requiredOption('--site <folder>', 'folder to make')
    .requiredOption('--name <name>', 'name of the site')
    .addOption(rootFile())
    .action(async (options: InitFlags) => (await import('./people.js')).init(options))
  people
    .command('add')
    .summary('add a person, with a key unless --no-key is given')
    .description('Add a person, with a key unless --no-key is given.')
    .addHelpText(
      'after',
      `
Examples:
  lockwright people add mira --name "Mira Holt" --holds coordinator --holds electrical-lv --site site
  lockwright people add tor --name "Tor Lind" --holds electrical-lv --until 2028-01-31 --site site
  lockwright people add ida --name "Ida Berg" --no-key --site site

Exit codes: 0 done; 2 could not run.`
    )
    .argument('<id>', 'short id of the person, as it stands in the records')
    .requiredOption('--site <folder>', 'site folder')
    .requiredOption('--name <name>', 'printed name')
    .option('--holds <qualification>', 'a qualification; may be given several times', gathered)
    .option('--from <date>', 'first day on which the qualifications hold, YYYY-MM-DD; today if left off')
    .option('--until <date>', 'last day on which they hold; until further notice if left off')
    .option('--no-key', 'this person signs nothing here')
    .addOption(ownFile())
    .addOption(rootFile())
    .action(async (id: string, options: AddFlags) => (await import('./people.js')).add(id, options))
  people
    .command('qualify')
    .summary('replace the qualifications of a person')
    .description('Replace the qualifications of a person.')
    .addHelpText(
      'after',
      `
All that the person held before is replaced; without --holds nothing is left.

Example:
  lockwright people qualify tor --holds electrical-lv --until 2028-01-31 --site site

Exit codes: 0 done; 2 could not run.`
    )
    .argument('<id>', 'id of the person')
    .requiredOption('--site <folder>', 'site folder')
    .option('--holds <qualification>', 'a qualification; may be given several times', gathered)
    .option('--from <date>', 'first day on which they hold, YYYY-MM-DD; today if left off')
    .option('--until <date>', 'last day on which they hold; until further notice if left off')
    .addOption(rootFile())
    .action(async (id: string, options: QualifyFlags) => (await import('./people.js')).qualify(id, options))
  people
    .command('list')
    .summary('list the people, their qualifications and whether their keys are good')
    .description('List the people, their qualifications and whether their keys are good.')
    .addHelpText(
      'after',
      `
Examples:
  lockwright people list --site site
  lockwright people list --site site --format json

Exit codes: 0 done; 2 could not run.`
    )
    .requiredOption('--site <folder>', 'site folder')
    .option('--trusted <key>', "thumbprint or public key of the site's root key, as you know it from elsewhere")
    .addOption(new Option('--format <format>', 'how to print it').choices(['text', 'json']).default('text'))
    .action(async (options: ListFlags) => (await import('./people.js')).list(options))
  people
    .command('revoke')
    .summary('from a date on, let the key of a person sign nothing; what it signed before stays good')
    .description('From a date on, let the key of a person sign nothing; what it signed before stays good.')
    .addHelpText(
      'after',
      `
Examples:
  lockwright people revoke tor --site site
  lockwright people revoke tor --from 2026-03-02T00:00:00Z --left --site site

A key that was lost or stolen: \`people lost\`, \`people stolen\`.

Exit codes: 0 done; 2 could not run.`
    )
    .argument('<id>', 'id of the person')
    .requiredOption('--site <folder>', 'site folder')
    .option('--from <time>', 'RFC 3339 time; now if left off')
    .option('--left', 'because the person works here no more')
    .addOption(rootFile())
    .action(async (id: string, options: RevokeFlags) => (await import('./people.js')).revoke(id, options))
  people
    .command('shift')
    .summary('say how long a shift is at this site')
    .description(
      'Say how long a shift is at this site: the audit tells of every lock that hung longer without a handover.'
    )
    .addHelpText(
      'after',
      `
Where nothing is said a shift counts as 12 hours.

Example:
  lockwright people shift --hours 8 --site site

Exit codes: 0 done; 2 could not run.`
    )
    .requiredOption('--site <folder>', 'site folder')
    .requiredOption('--hours <hours>', 'hours of the longest shift, such as 8 or 12')
    .addOption(rootFile())
    .action(async (options: ShiftFlags) => (await import('./people.js')).shift(options))
  addKeyCommands(people)
}
