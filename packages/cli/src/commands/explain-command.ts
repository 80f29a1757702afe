import { type Command, Option } from 'commander'
import type { ExplainOptions } from './explain.js'

const help = `
Without a name it lists every obligation that is checked, with its source, and the names of everything else:
the directives of the language, kinds of energy and of restraint, keys of the front matter, and findings.

Examples:
  lockwright explain
  lockwright explain work-isolated      an obligation
  lockwright explain prove              a directive: forms, attributes, an example
  lockwright explain capacitor          a kind of energy, with its parameters
  lockwright explain unclosed-fence     a finding about the text, and how it is mended
  lockwright explain --format json

Exit codes: 0 explained; 2 nothing bears that name (the nearest names are given).`

export function explainCommand(lockwright: Command): void {
  lockwright
    .command('explain')
    .summary('say what an obligation, a directive, a key or a finding means')
    .description(
      'Say what an obligation asks, why, from which source, with an example that holds and one that does not; or what a word of the language means.'
    )
    .argument('[name]', 'an obligation, a directive, a kind, a key, or the id of a finding')
    .addOption(new Option('--format <format>', 'how to print it').choices(['text', 'json']).default('text'))
    .addHelpText('after', help)
    .action(async (name: string | undefined, options: ExplainOptions) => {
      const { explain } = await import('./explain.js')
      process.exitCode = explain(name, options)
    })
}
