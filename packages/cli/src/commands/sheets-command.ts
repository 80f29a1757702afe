import { type Command, Option } from 'commander'
import type { SheetsFlags, VoidFlags } from './sheets.js'

const help = `
\`lockwright print --site\` gives each sheet a serial number and records it. Here is where each of them is:
  out              printed, and not entered: somebody may be working with it, or it is lost
  partly entered   what was filled in is on record; the rest is still to come
  entered          it came back, and its run is closed
  void             declared spoiled or lost, and why

Examples:
  lockwright sheets list site
  lockwright sheets list site --out
  lockwright sheets void site 7M2-PSZ3 --reason "Coffee over page 2" --by mira

Exit codes: 0 done; 1 the records of the sheets are not whole; 2 could not run.`

export function sheetsCommand(lockwright: Command): void {
  const sheets = lockwright
    .command('sheets')
    .summary('list the printed sheets: which are out, and since when')
    .description('List the sheets that were printed for a site, and where each of them is.')
    .addHelpText('after', help)
  sheets
    .command('list')
    .summary('list the sheets')
    .description('List the sheets that were printed for a site, and where each of them is.')
    .argument('<site>', 'site folder')
    .option('--out', 'only those that are out or partly entered')
    .addOption(new Option('--format <format>', 'how to print the list').choices(['text', 'json']).default('text'))
    .action(async (site: string, options: SheetsFlags) => {
      process.exitCode = (await import('./sheets.js')).listSheets(site, options)
    })
  sheets
    .command('void')
    .summary('declare a sheet spoiled or lost')
    .description('Declare a sheet spoiled or lost, so that nobody waits for it. It stays on record, with the reason.')
    .argument('<site>', 'site folder')
    .argument('<serial>', 'serial number of the sheet')
    .requiredOption('--reason <text>', 'what became of the paper')
    .requiredOption('--by <person>', 'id of whoever says so')
    .action(async (site: string, serial: string, options: VoidFlags) => {
      process.exitCode = (await import('./sheets.js')).declareVoid(site, serial, options)
    })
}
