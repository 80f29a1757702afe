import { type Command, Option } from 'commander'
import type { CheckOptions } from './check.js'

const help = `
Each file is read as a procedure, compiled to a state machine and explored in every way it can go.
A folder stands for the Markdown files in it and below, README.md left out. All files are checked in one go.

The verdict of a file:
  proved      every obligation holds, does not arise or is waived in writing
  refused     an obligation is not kept; the shortest way that leads there is shown
  malformed   the text is not a procedure; every fault is shown with its place
  undecided   a limit was reached before everything was explored; nothing is proven

Examples:
  lockwright check procedures/booster-pump-precharge.md
  lockwright check procedures
  lockwright check --format json procedures > verdicts.json

\`--format json\` prints one line to standard output:
  {"files":[{"file","verdict","states","configurations","diagnostics":[{"id","severity","line","column",
  "endLine","endColumn","what","danger","mend","related":[],"path":[{"line","title"}]}]}]}
  The id of an obligation's diagnostic is the obligation's; \`lockwright explain ID\` says more about it.

\`--format sarif\` prints a SARIF 2.1.0 log: a result for each finding, with the way that leads there as a code
flow, and a rule with help for each obligation. What is undecided is told in the invocation.

Exit codes: 0 every file is proved; 1 some file is not; 2 some file could not be read (the others are checked).
Results go to standard output, what could not be read to standard error.`

export function checkCommand(lockwright: Command): void {
  lockwright
    .command('check')
    .summary('prove procedures, or show what is wrong with them')
    .description('Prove procedures, or show what is wrong with them, where, why it is dangerous and how to mend it.')
    .argument('<files...>', 'procedures (Markdown), or folders of them')
    .addOption(
      new Option('--format <format>', 'how to print the result').choices(['text', 'json', 'sarif']).default('text')
    )
    .option('-q, --quiet', 'say nothing about files that are proved')
    .addHelpText('after', help)
    .action(async (files: string[], options: CheckOptions) => {
      const { check } = await import('./check.js')
      process.exitCode = check(files, options)
    })
}
