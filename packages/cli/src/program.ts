import { Command } from 'commander'
import { version } from './version.js'

const help = `
The usual order:
  lockwright check FILE                    does the procedure hold together?
  lockwright energy FILE                   what does each energy hold, and how long must one wait?
  lockwright paths FILE                    how many ways lead through, and what is to be rehearsed?
  lockwright compare OLD NEW               what changed in meaning, and is less asked than before?
  lockwright people init --site site       once: the folder for people, issued procedures and records
  lockwright issue FILE --site site --by ID    a coordinator signs the procedure for use
  lockwright print FILE --out sheet.pdf    the checklist on paper, or
  lockwright step FILE --site site --by ID     the same on the screen, recorded as it goes
  lockwright placard FILE --out placard.pdf    the page beside the machine; tags and labels for its devices
  lockwright audit site                    what happened, who signed, is it whole?
  lockwright sync site --to postgres://...     send the records to a store that several share
  lockwright log checkpoint site           now and then: a few lines to keep elsewhere, against tampering

Exit codes of every command:
  0  all well
  1  findings: a procedure is not proved, a record is not good, a run did not come to an end
  2  could not run: a file cannot be read, an option is wrong, a passphrase does not fit

Passphrases are asked for, or read from --passphrase-file, or from LOCKWRIGHT_PASSPHRASE; never from the command line.

What is proved is that the listed obligations hold in the procedure as written. That replaces neither the
plant's rules nor local codes nor the judgement of qualified people.`

/**
 * The whole command, or of its commands the one that `only` names: what the others say of themselves need not be loaded
 * to run one. Any other word, such as a mistyped one, has them all. What a command does is loaded when it runs.
 */
export async function program(only?: string): Promise<Command> {
  const lockwright = new Command('lockwright')
    .description('Lockout and repair procedures written in Markdown: proved, printed, stepped, signed and audited.')
    .version(version, '-V, --version', 'print the version')
    .helpOption('-h, --help', 'print this help')
    .helpCommand('help [command]', 'print the help of a command')
    .configureHelp({ helpWidth: 100 })
    .showHelpAfterError('(`lockwright --help` lists the commands; `lockwright COMMAND --help` explains one.)')
    .addHelpText('after', help)
    .exitOverride()
  const named = commands.filter(([name]) => name === only)
  for (const [, load] of named.length === 0 ? commands : named) {
    const add = await load()
    add(lockwright)
  }
  return lockwright
}

type AddCommand = (lockwright: Command) => void

const commands: readonly (readonly [name: string, load: () => Promise<AddCommand>])[] = [
  ['check', async () => (await import('./commands/check-command.js')).checkCommand],
  ['explain', async () => (await import('./commands/explain-command.js')).explainCommand],
  ['energy', async () => (await import('./commands/energy-command.js')).energyCommand],
  ['compare', async () => (await import('./commands/compare-command.js')).compareCommand],
  ['paths', async () => (await import('./commands/paths-command.js')).pathsCommand],
  ['build', async () => (await import('./commands/build-command.js')).buildCommand],
  ['print', async () => (await import('./commands/print-command.js')).printCommand],
  ['placard', async () => (await import('./commands/placard-command.js')).placardCommand],
  ['tags', async () => (await import('./commands/tags-command.js')).tagsCommand],
  ['labels', async () => (await import('./commands/labels-command.js')).labelsCommand],
  ['template', async () => (await import('./commands/template-command.js')).templateCommand],
  ['people', async () => (await import('./commands/people-command.js')).peopleCommand],
  ['instruments', async () => (await import('./commands/instruments-command.js')).instrumentsCommand],
  ['issue', async () => (await import('./commands/issue-command.js')).issueCommand],
  ['step', async () => (await import('./commands/step-command.js')).stepCommand],
  ['enter', async () => (await import('./commands/enter-command.js')).enterCommand],
  ['sheets', async () => (await import('./commands/sheets-command.js')).sheetsCommand],
  ['inspect', async () => (await import('./commands/inspect-command.js')).inspectCommand],
  ['audit', async () => (await import('./commands/audit-command.js')).auditCommand],
  ['log', async () => (await import('./commands/log-command.js')).logCommand],
  ['sync', async () => (await import('./commands/sync-command.js')).syncCommand],
  ['store', async () => (await import('./commands/store-command.js')).storeCommand]
]
