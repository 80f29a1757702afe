import { type Command, Option } from 'commander'
import type { ExplainOptions } from './explain.js'

const help = `
Without an id it lists every obligation that is checked, with its source.

Examples:
  lockwright explain
  lockwright explain work-isolated
  lockwright explain --format json

Exit codes: 0 explained; 2 no obligation bears that id (the nearest ones are named).`

export function explainCommand(lockwright: Command): void {
  lockwright
    .command('explain')
    .summary('say what an obligation asks and why')
    .description(
      'Say what an obligation asks, why, from which source, with an example that holds and one that does not.'
    )
    .argument('[obligation]', 'id of an obligation, as a diagnostic bears it')
    .addOption(new Option('--format <format>', 'how to print it').choices(['text', 'json']).default('text'))
    .addHelpText('after', help)
    .action(async (id: string | undefined, options: ExplainOptions) => {
      const { explain } = await import('./explain.js')
      process.exitCode = explain(id, options)
    })
}
