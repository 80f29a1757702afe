import { type Command, Option } from 'commander'
import { gathered } from '../gathered.js'
import type { AddFlags, CalibrateFlags, ListFlags, WithdrawFlags } from './instruments.js'
import { rootFile } from './people-options.js'

const help = `
The list of testers and gauges (instruments.yaml) is signed with the site's root key, as the roster is. Once there is
one, a run of an issued procedure asks with which instrument a source was proven dead, and refuses one that is not on
the list, out of calibration that day, taken out of use, or not built for the circuit; the audit looks at the same.
Nothing is ever taken off the list, so that old records can be judged.

Examples:
  lockwright instruments add VT-7 --name "Two-pole voltage tester" --serial 4711-03 --measures voltage \\
    --rated "CAT III 1000 V" --rated "CAT IV 600 V" --accuracy "2 % of reading + 1 V" --site site
  lockwright instruments add PG-2 --name "Pressure gauge" --serial 88-120 --measures pressure \\
    --range "0 to 10 bar" --accuracy "1.6 % of range" --site site
  lockwright instruments calibrate PG-2 --until 2027-03-01 --certificate K-118 --site site
  lockwright instruments withdraw VT-7 --from 2026-03-02 --why "Found 8 V low" --site site
  lockwright instruments list --site site

Exit codes: 0 done; 2 could not run.`

export function instrumentsCommand(lockwright: Command): void {
  const instruments = lockwright
    .command('instruments')
    .summary('keep the list of testers and gauges of a site: rating, calibration, taken out of use')
    .description('Keep the list of testers and gauges of a site: rating, range, calibration, taken out of use.')
    .addHelpText('after', help)
  instruments
    .command('list')
    .summary('list the instruments and whether each may be used today')
    .description('List the instruments and whether each may be used today.')
    .addHelpText(
      'after',
      `
Examples:
  lockwright instruments list --site site
  lockwright instruments list --on 2026-03-02 --site site
  lockwright instruments list --site site --format json

Exit codes: 0 done; 2 could not run.`
    )
    .requiredOption('--site <folder>', 'site folder')
    .option('--on <date>', 'as of this day, YYYY-MM-DD; today if left off')
    .option('--trusted <key>', "thumbprint or public key of the site's root key, as you know it from elsewhere")
    .addOption(new Option('--format <format>', 'how to print it').choices(['text', 'json']).default('text'))
    .action(async (options: ListFlags) => (await import('./instruments.js')).list(options))
  instruments
    .command('add')
    .summary('add an instrument by the number that stands on it')
    .description('Add an instrument by the number that stands on it.')
    .addHelpText(
      'after',
      `
--measures is the word that the procedures use at \`::tool\`: voltage, current, pressure, speed, temperature, length ...
--rated is what is printed on the instrument and on its leads, the lower of the two; give it once for each rating.
--accuracy is what its papers say; where it is given, a reading that with it reaches the safe level proves nothing dead.

Examples:
  lockwright instruments add VT-7 --name "Two-pole voltage tester" --serial 4711-03 --measures voltage \\
    --rated "CAT III 1000 V" --rated "CAT IV 600 V" --site site
  lockwright instruments add PG-2 --name "Pressure gauge" --serial 88-120 --measures pressure \\
    --range "0 to 10 bar" --accuracy "1.6 % of range" --site site

Exit codes: 0 done; 2 could not run.`
    )
    .argument('<id>', 'number on the instrument, as it is given with a reading')
    .requiredOption('--site <folder>', 'site folder')
    .requiredOption('--name <name>', 'what it is')
    .requiredOption('--serial <number>', "the maker's number")
    .requiredOption('--measures <quantity>', 'what it measures')
    .option('--rated <rating>', 'such as "CAT III 1000 V"; may be given several times', gathered)
    .option('--range <range>', 'what it can show, such as "0 to 10 bar"')
    .option('--accuracy <accuracy>', 'such as "1.6 % of range", or "2 % of reading + 1 V"')
    .addOption(rootFile())
    .action(async (id: string, options: AddFlags) => (await import('./instruments.js')).add(id, options))
  instruments
    .command('calibrate')
    .summary('enter a calibration; those before stay')
    .description('Enter a calibration; those before stay, so that old records can be judged.')
    .addHelpText(
      'after',
      `
Example:
  lockwright instruments calibrate PG-2 --from 2026-03-02 --until 2027-03-01 --certificate K-118 --site site

Exit codes: 0 done; 2 could not run.`
    )
    .argument('<id>', 'number on the instrument')
    .requiredOption('--site <folder>', 'site folder')
    .option('--from <date>', 'first day on which it holds, YYYY-MM-DD; today if left off')
    .requiredOption('--until <date>', 'last day on which it holds, YYYY-MM-DD')
    .option('--certificate <number>', 'number of the certificate')
    .addOption(rootFile())
    .action(async (id: string, options: CalibrateFlags) => (await import('./instruments.js')).calibrate(id, options))
  instruments
    .command('withdraw')
    .summary('take an instrument out of use from a day on')
    .description('Take an instrument out of use from a day on; what it showed before stays good.')
    .addHelpText(
      'after',
      `
If it was found wrong, give the last day on which it was surely right as --from: every reading since then is told by
the audit. An instrument that was mended is added anew under another number.

Example:
  lockwright instruments withdraw VT-7 --from 2026-03-02 --why "Found 8 V low" --site site

Exit codes: 0 done; 2 could not run.`
    )
    .argument('<id>', 'number on the instrument')
    .requiredOption('--site <folder>', 'site folder')
    .option('--from <date>', 'from the start of this day on, YYYY-MM-DD; today if left off')
    .requiredOption('--why <reason>', 'why, as it is told in the audit')
    .addOption(rootFile())
    .action(async (id: string, options: WithdrawFlags) => (await import('./instruments.js')).withdraw(id, options))
}
