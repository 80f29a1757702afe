import { type Command, Option } from 'commander'
import type { PathsFlags } from './paths.js'

const help = `
For each generation of the equipment: how many ways lead to the finish and to a stop, the shortest and the
longest with their expected minutes, and the fewest runs in which every step is passed and every exit taken
at least once, for whoever trains people on the procedure.

A way passes no state twice: a loop is counted by the ways into it, not by how often it is gone round. A run
goes round a loop where that is needed. Minutes are those that the procedure gives, plus its waits.

Examples:
  lockwright paths procedures/booster-pump-precharge.md
  lockwright paths --format json procedures/booster-pump-precharge.md | jq '.generations[0].ways'

Exit codes: 0 shown; 1 the file is not proved, or no procedure; 2 could not run.`

export function pathsCommand(lockwright: Command): void {
  lockwright
    .command('paths')
    .summary('count the ways through a procedure, and list the runs to rehearse')
    .description('Count the ways through a procedure, and list the runs that a trainer should rehearse.')
    .argument('<file>', 'a procedure (Markdown)')
    .addOption(new Option('--format <format>', 'how to print the result').choices(['text', 'json']).default('text'))
    .addHelpText('after', help)
    .action(async (file: string, options: PathsFlags) => {
      const { paths } = await import('./paths.js')
      process.exitCode = paths(file, options)
    })
}
