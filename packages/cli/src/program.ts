import { Command } from 'commander'
import { auditCommand } from './commands/audit-command.js'
import { buildCommand } from './commands/build-command.js'
import { checkCommand } from './commands/check-command.js'
import { compareCommand } from './commands/compare-command.js'
import { energyCommand } from './commands/energy-command.js'
import { enterCommand } from './commands/enter-command.js'
import { explainCommand } from './commands/explain-command.js'
import { inspectCommand } from './commands/inspect-command.js'
import { instrumentsCommand } from './commands/instruments-command.js'
import { issueCommand } from './commands/issue-command.js'
import { labelsCommand } from './commands/labels-command.js'
import { logCommand } from './commands/log-command.js'
import { pathsCommand } from './commands/paths-command.js'
import { peopleCommand } from './commands/people-command.js'
import { placardCommand } from './commands/placard-command.js'
import { printCommand } from './commands/print-command.js'
import { sheetsCommand } from './commands/sheets-command.js'
import { stepCommand } from './commands/step-command.js'
import { storeCommand } from './commands/store-command.js'
import { syncCommand } from './commands/sync-command.js'
import { tagsCommand } from './commands/tags-command.js'
import { templateCommand } from './commands/template-command.js'
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

/** The whole command; what a command does is loaded when it runs. */
export function program(): Command {
  const lockwright = new Command('lockwright')
    .description('Lockout and repair procedures written in Markdown: proved, printed, stepped, signed and audited.')
    .version(version, '-V, --version', 'print the version')
    .helpOption('-h, --help', 'print this help')
    .helpCommand('help [command]', 'print the help of a command')
    .configureHelp({ helpWidth: 100 })
    .showHelpAfterError('(`lockwright --help` lists the commands; `lockwright COMMAND --help` explains one.)')
    .addHelpText('after', help)
    .exitOverride()
  for (const add of commands) add(lockwright)
  return lockwright
}

const commands = [
  checkCommand,
  explainCommand,
  energyCommand,
  compareCommand,
  pathsCommand,
  buildCommand,
  printCommand,
  placardCommand,
  tagsCommand,
  labelsCommand,
  templateCommand,
  peopleCommand,
  instrumentsCommand,
  issueCommand,
  stepCommand,
  enterCommand,
  sheetsCommand,
  inspectCommand,
  auditCommand,
  logCommand,
  syncCommand,
  storeCommand
]
