import { type Command, Option } from 'commander'
import type { BuildOptions } from './build.js'

const help = `
  json         the state machine as plain JSON: states, guards and effects as data (schema: the file
               schema/machine.schema.json of the package @lockwright/machine)
  typescript   a module with the machine and literal types: an answer that a state does not ask for
               does not compile; it imports @lockwright/machine
  promela      a model for SPIN with each obligation as an assertion: a second opinion on the proof
  scxml        the flow as a W3C state chart
  xstate       the flow as a configuration that xstate 5 runs
  dot, svg     the flow as a drawing: sections framed, gates by shape, generations and answers labelled

The last five show the flow to other tools; what holds at run time, the gates and the ledger, is in the first two.

Only a procedure that is proved is built; else the findings are printed, as \`check\` does. The same procedure
gives the same bytes.

Examples:
  lockwright build procedures/booster-pump-precharge.md --as json --out booster-pump.json
  lockwright build procedures/booster-pump-precharge.md --as typescript --out booster-pump.ts
  lockwright build procedures/booster-pump-precharge.md --as svg --out booster-pump.svg
  lockwright build procedures/booster-pump-precharge.md --as json | less

Without --out the result goes to standard output. Exit codes: 0 built; 1 not proved; 2 could not run.`

export function buildCommand(lockwright: Command): void {
  lockwright
    .command('build')
    .summary('write a proved procedure as JSON, TypeScript, a model, a chart or a drawing')
    .description('Write the state machine of a proved procedure for programs, for other tools, or as a drawing.')
    .argument('<file>', 'a procedure (Markdown)')
    .addOption(
      new Option('--as <form>', 'what to write')
        .choices(['json', 'typescript', 'promela', 'scxml', 'xstate', 'dot', 'svg'])
        .makeOptionMandatory()
    )
    .option('-o, --out <file>', 'where to write it; standard output if left off')
    .addHelpText('after', help)
    .action(async (file: string, options: BuildOptions) => {
      const { build } = await import('./build.js')
      process.exitCode = build(file, options)
    })
}
