import { type Command, Option } from 'commander'
import type { CheckFlags, CheckpointFlags, ProveFlags } from './log.js'

const help = `
Every run that is closed (finished or stopped, no rehearsal) adds one leaf to the log of the site: the hash of its
journal, and which locks still hung. The log only grows. A checkpoint is a few lines of text, signed with the root
key of the site, that stand for the whole log as it was then.

Why it is worth the trouble: a journal that is cut back or removed whole leaves no trace in the folder. Whoever
kept one old checkpoint, on paper or in a mail, can have it proven that nothing before it was removed or rewritten.

Examples:
  lockwright log checkpoint site > checkpoint-2026-03.txt        keep this file where nobody at the site can change it
  lockwright log check site --checkpoint checkpoint-2026-03.txt  later: is everything still there?
  lockwright log prove site 20260302-p-202-1f0c9a7e              a file for somebody who may not see the site
  lockwright log check --proof 20260302-p-202-1f0c9a7e.tlog-proof --key KEY

Exit codes: 0 well; 1 there are findings; 2 could not run.`

export function logCommand(lockwright: Command): void {
  const log = lockwright
    .command('log')
    .summary('sign, prove and check the log of closed runs')
    .description('Sign, prove and check the log of the closed runs of a site.')
    .addHelpText('after', help)
  addCheckpoint(log)
  addProve(log)
  addCheck(log)
}

function addCheckpoint(log: Command): void {
  log
    .command('checkpoint')
    .summary('sign what the log now is, to be kept elsewhere')
    .description('Take every closed run into the log, sign what the log now is, and print that.')
    .argument('<site>', 'site folder')
    .addOption(
      new Option(
        '--root-passphrase-file <file>',
        "file with the passphrase of the site's root key (else LOCKWRIGHT_ROOT_PASSPHRASE, else it is asked for)"
      )
    )
    .addHelpText(
      'after',
      `
The checkpoint goes to standard output and into log/checkpoint of the site. Keep it in a place of your own: print
it, mail it to the auditor, put it into the minutes. Do so on a fixed day; what was closed after the last
checkpoint that somebody kept is not protected by it.

Example:
  lockwright log checkpoint site | tee checkpoint.txt

Exit codes: 0 signed; 2 could not run (also where the log is no longer the one that was signed before).`
    )
    .action(async (site: string, options: CheckpointFlags) => {
      process.exitCode = await (await import('./log.js')).checkpoint(site, options)
    })
}

function addProve(log: Command): void {
  log
    .command('prove')
    .summary('write a proof that a run is in the log')
    .description('Write a proof that a run is in the log, to be checked anywhere without the site.')
    .argument('<site>', 'site folder')
    .argument('<run>', 'name of the run')
    .option('-o, --out <file>', 'where to write it (else RUN.tlog-proof in this folder)')
    .option('--trusted <key>', "thumbprint or public key of the site's root key, as you know it from elsewhere")
    .addHelpText(
      'after',
      `
The file holds the leaf of the run (hash of its journal, equipment, when it was closed, which locks still hung),
the proof, and the last checkpoint. It needs one that was signed after the run was closed.

Exit codes: 0 written; 2 could not run.`
    )
    .action(async (site: string, run: string, options: ProveFlags) => {
      process.exitCode = (await import('./log.js')).prove(site, run, options)
    })
}

function addCheck(log: Command): void {
  log
    .command('check')
    .summary('hold the log against a checkpoint that was kept, or check a proof')
    .description('Hold the log and the journals against a checkpoint that was kept; or check a proof without the site.')
    .argument('[site]', 'site folder')
    .option('--checkpoint <file>', 'a checkpoint that was kept elsewhere, or what `audit --keep` wrote')
    .option('--trusted <key>', "thumbprint or public key of the site's root key, as you know it from elsewhere")
    .option('--new', 'look only at the runs that were closed since that checkpoint')
    .option('--proof <file>', 'check a proof that `log prove` wrote; no site is needed')
    .option('--key <key>', 'with --proof: public key of the root key, or the key that `log checkpoint` told')
    .option('--journal <file>', 'with --proof: a copy of the journal, to be held against it')
    .addOption(new Option('--format <format>', 'how to print what was found').choices(['text', 'json']).default('text'))
    .addHelpText(
      'after',
      `
What is found, each with what it means and what to do:
  a journal that was removed, cut back or rewritten since it was closed
  leaves that were removed, changed, put in or moved since the checkpoint was signed
  a log that is shorter than the checkpoint: the folder was put back to an older copy
  a closed run that is in no log yet
A checkpoint of another site, or one that the root key did not sign, is refused.

Without --checkpoint only what lies in the folder is compared with itself: whoever replaced all of it leaves no
trace there. Reads only; nothing is changed.

Examples:
  lockwright log check site --checkpoint checkpoint.txt --trusted THUMBPRINT
  lockwright log check --proof run.tlog-proof --key KEY --journal run.jsonl

Exit codes: 0 nothing was found; 1 there are findings; 2 could not run.`
    )
    .action(async (site: string | undefined, options: CheckFlags) => {
      process.exitCode = (await import('./log.js')).check(site, options)
    })
}
