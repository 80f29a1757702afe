import type { Command } from 'commander'
import type { IssueFlags } from './issue.js'

const help = `
The procedure is proved again, then signed with the coordinator's key and kept in the site by its digest.
From then on sheets and runs of exactly this procedure no longer bear the mark DRAFT. A changed file has
another digest and has to be issued again. The signature covers the pictures as they are now: a sheet with another one
is refused, and a procedure whose picture is missing or cannot be printed is not issued.

A revision that asks less anywhere than the one that is issued now (\`lockwright compare\` shows where) is issued
only with --reason; the signature covers the reason, and the audit tells it.

Examples:
  lockwright issue procedures/booster-pump-precharge.md --site site --by mira

The signer needs the qualification \`coordinator\` (lockwright people add --holds coordinator).
Exit codes: 0 issued; 1 not proved, or it asks less and no reason was given (shown either way); 2 could not run.`

export function issueCommand(lockwright: Command): void {
  lockwright
    .command('issue')
    .summary("sign a procedure for use, as the site's coordinator")
    .description("Sign a proved procedure for use, as the site's coordinator.")
    .argument('<file>', 'a procedure (Markdown)')
    .requiredOption('--site <folder>', 'site folder')
    .requiredOption('--by <person>', 'id of the coordinator')
    .option('--reason <text>', 'why it may ask less than the revision that is issued now')
    .option('--passphrase-file <file>', 'file with their passphrase (else LOCKWRIGHT_PASSPHRASE, else it is asked for)')
    .addHelpText('after', help)
    .action(async (file: string, options: IssueFlags) => {
      const { issueFile } = await import('./issue.js')
      process.exitCode = await issueFile(file, options)
    })
}
