import { type Command, Option } from 'commander'
import type { BuildOptions } from './build.js'

const help = `
  json         the state machine as plain JSON: states, guards and effects as data (schema: the file
               schema/machine.schema.json of the package @lockwright/machine)
  typescript   a module with the machine and literal types: an answer that a state does not ask for
               does not compile; it imports @lockwright/machine

Only a procedure that is proved is built; else the findings are printed, as \`check\` does. The same procedure
gives the same bytes.

Examples:
  lockwright build procedures/booster-pump-precharge.md --as json --out booster-pump.json
  lockwright build procedures/booster-pump-precharge.md --as typescript --out booster-pump.ts
  lockwright build procedures/booster-pump-precharge.md --as json | less

Without --out the result goes to standard output. Exit codes: 0 built; 1 not proved; 2 could not run.`

export function buildCommand(lockwright: Command): void {
  lockwright
    .command('build')
    .summary('write a proved procedure as JSON or as a TypeScript module')
    .description('Write the state machine of a proved procedure as JSON or as a TypeScript module.')
    .argument('<file>', 'a procedure (Markdown)')
    .addOption(new Option('--as <form>', 'what to write').choices(['json', 'typescript']).makeOptionMandatory())
    .option('-o, --out <file>', 'where to write it; standard output if left off')
    .addHelpText('after', help)
    .action(async (file: string, options: BuildOptions) => {
      const { build } = await import('./build.js')
      process.exitCode = build(file, options)
    })
}
