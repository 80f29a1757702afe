import type { Command } from 'commander'
import type { StepFlags } from './step.js'

const help = `
Shows one step at a time, with what is locked, released and proven above or beside it (what finds no room is
counted there; \`sources\` shows it), and writes each answer to the journal before the next step appears. After a crash or a pause the same command goes on where the run was.
The journal lies in the site folder: runs/RUN.jsonl.

A run of a procedure that no coordinator has issued in this site is marked DRAFT for good.

On a terminal it fills the screen; on a pipe, with TERM=dumb or with --plain it prints numbered lines. With
--answers the answers come from a YAML file, one after the other; where they end, the run stays open.

Examples:
  lockwright step procedures/booster-pump-precharge.md --site site --by tor
  lockwright step procedures/booster-pump-precharge.md --site site --by tor --plain
  lockwright step procedures/booster-pump-precharge.md --site site --by tor --answers answers.yaml
  lockwright step procedures/booster-pump-precharge.md --rehearse --path 2
  lockwright step --site site --by tor

Without a procedure, \`step --site site --by tor\` lists the open runs: where exactly each stands, which locks hang, what
has to be proven again and why; the one that is chosen goes on.

Without a site, \`step FILE --rehearse\` rehearses: no keys, no journal, waits can be skipped. \`--path 2\` leads along the
second of the runs that \`paths\` lists for rehearsal, and says at each step what that way does there.

Passphrases for sign-offs are asked for as they come up; a file of answers says where one is to be read
(\`passphrase-from: env:NAME\` or \`file:PATH\`) and never holds it; where it does not say, that of --by comes from
--passphrase-file or LOCKWRIGHT_PASSPHRASE. Whoever has a key also signs that the run is finished or stopped; an
audit can then tell that nothing was changed up to there.
In a run of an issued procedure nobody answers for another: whoever comes to the keys (as PERSON), joins, takes over or has
their lock off gives their passphrase for it, or their full name where they have no key, which proves nothing.

A file of answers, one entry a step in the order in which the run comes to them:
  clock: { start: 2026-03-02T07:00:00Z, pace: 1 min }     times of its own; for rehearsals and drafts alone
  answers:
    - { at: prepare.1, ticks: all }
    - { at: lock-out.3, locks: { Q1: "17" } }
    - { at: lock-out.6, wait: over, readings: { water: 0 bar } }
    - { at: prove.1, readings: { "mains: L1 to L2": [400 V, 0 V] }, reason: wrong switch opened }
    - { at: open, sign: { person: tor, passphrase-from: env:TOR } }

\`step: 9\` in place of \`at:\` names a step by its number on the sheet that is printed for every generation. A list
under the name of a source has one reading for each line of it; a second reading of a line stands under its own
name, with \`reason:\` saying why the first was live.

Exit codes: 0 the run was finished or stopped as written; 1 not proved (the findings are shown), or the run did
not come to an end; 2 could not run.`

export function stepCommand(lockwright: Command): void {
  lockwright
    .command('step')
    .summary('step through a run on the screen, recorded as it goes')
    .description('Step through a run of a proved procedure, recorded as it goes.')
    .argument('[file]', 'a procedure (Markdown); without it, the open runs are listed and one is gone on with')
    .option('--site <folder>', 'site folder, for the roster and the journal; needed but for a rehearsal')
    .option('--by <person>', 'id of whoever works with it')
    .option('--answers <file>', 'take the answers from a YAML file')
    .option('--plain', 'numbered lines instead of the full screen')
    .option('--run <id>', 'go on with this run; else with the open run of this procedure, or a new one')
    .option('--new', 'open a new run even where one is open')
    .option('--passphrase-file <file>', 'with --answers: file with the passphrase of --by')
    .option('--rehearse', 'a rehearsal: nothing is signed; with --site its journal says so, without there is none')
    .option('--path <number>', 'with --rehearse: along this one of the runs that `paths` lists')
    .option(
      '--clock <time>',
      'with --rehearse: a clock that stands, here, and moves on 30 s with each answer: 2026-03-02T07:00:00Z'
    )
    .addHelpText('after', help)
    .action(async (file: string | undefined, options: StepFlags) => {
      const { step } = await import('./step.js')
      process.exitCode = await step(file, options)
    })
}
