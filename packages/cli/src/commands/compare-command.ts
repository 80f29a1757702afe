import { type Command, Option } from 'commander'
import type { CompareFlags } from './compare.js'

const help = `
Shows what changed in meaning, not in text: gates gained and lost, sources, devices, restraints, limits,
waits, roles, equipment, what stays on, what is waived, ways that now lead past a gate, obligations that
arise no more. A step that was moved, renamed or worded anew is no change.

Each change is marked:
  loosened    less is asked than before; \`issue\` asks for the reason
  tightened   more is asked than before
  neither     it is other, and neither, or nobody can tell from the procedure alone

Examples:
  lockwright compare old/booster-pump.md procedures/booster-pump.md
  lockwright compare procedures/booster-pump.md --between v1.2 HEAD
  lockwright compare --format json old.md new.md | jq .changes

A mark says which way a change goes, not that the procedure is right: \`check\` and qualified people say that.
Exit codes: 0 nothing is loosened; 1 something is, or a file is no procedure; 2 could not run.`

export function compareCommand(lockwright: Command): void {
  lockwright
    .command('compare')
    .summary('show what changed in meaning between two revisions')
    .description('Show what changed in meaning between two files, or between two git revisions of one file.')
    .argument('<files...>', 'the old file and the new one, or one file with --between')
    .option('--between <revisions...>', 'two git revisions of the file, the old one first')
    .addOption(new Option('--format <format>', 'how to print the result').choices(['text', 'json']).default('text'))
    .addHelpText('after', help)
    .action(async (files: string[], options: CompareFlags) => {
      const { compareFiles } = await import('./compare.js')
      process.exitCode = compareFiles(files, options)
    })
}
