/**
 * `npm run demo`: the main job on one procedure of the library, through the real command, into a fresh folder.
 * Every line that begins with `$` is a command that can be typed by hand.
 */
import { spawnSync } from 'node:child_process'
import { cpSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'

const root = join(dirname(fileURLToPath(import.meta.url)), '../..')
const procedure = 'procedures/booster-pump-precharge.md'
const answers = 'examples/demo/answers.yaml'
const out = 'examples/demo/out'
const site = `${out}/site`
const translation = 'procedures/translations/booster-pump-precharge.es.md'
const sideBySide = `${out}/P202-PRECHARGE-en-es.pdf`
const placard = `${out}/P202-PRECHARGE-placard.pdf`
const kept = `${out}/checkpoint.txt`

// Invented people of an invented plant; real passphrases are typed, and stand in no file.
const passphrases = { root: 'demo only: site', mira: 'demo only: mira', tor: 'demo only: tor' }

process.chdir(root)
rmSync(out, { recursive: true, force: true })
mkdirSync(out, { recursive: true })

title('1. Check the procedure')
lockwright(['check', procedure])

title('2. The same procedure with one proof left out does not compile')
const variation = `${out}/dc-link-not-proven.md`
const text = readFileSync(procedure, 'utf8')
writeFileSync(variation, replaced(text, ':::prove{of="mains control dc-link"', ':::prove{of="mains control"'))
lockwright(['check', variation], { expected: 1 })

title('3. A site: who may sign what')
lockwright(['people', 'init', '--site', site, '--name', 'Sandholm pumping station'])
person('mira', ['--name', 'Mira Holt', '--holds', 'coordinator', '--holds', 'equipment-owner'])
person('tor', ['--name', 'Tor Lind', '--holds', 'electrical-lv'])
lockwright(['people', 'list', '--site', site])

title('4. Step through the draft with scripted answers, signed and closed; audit the record')
lockwright(['step', procedure, '--site', site, '--by', 'tor', '--answers', answers], { passphrase: passphrases.tor })
say('\nThe audit cannot tell whether a draft was the right procedure, so it ends with exit code 1:')
lockwright(['audit', site], { expected: 1, lines: 45 })

title('5. The coordinator issues it; print the checklist for the cabinet at hand')
say(
  '\nThe sheet that comes back below is dated 4 March 2026, and work dated before its procedure was issued is a finding.'
)
say("So for this one command the computer's clock is set to the day before; every other one goes by today's.")
lockwright(['issue', procedure, '--site', site, '--by', 'mira'], {
  passphrase: passphrases.mira,
  clock: '2026-03-03T08:00:00Z'
})
const sheet = `${out}/P202-PRECHARGE-series-t.pdf`
const printed = lockwright(['print', procedure, '--site', site, '--for', 'cabinet=series-t', '--out', sheet])
const serial = /Sheet (\S+);/.exec(printed)?.[1] ?? ''
lockwright(['print', procedure, '--site', site, '--languages', 'en,es', '--with', translation, '--out', sideBySide])
lockwright(['placard', procedure, '--site', site, '--out', placard])

title('6. The completed sheet comes back: enter it into the record, and audit that')
const filled = `${out}/sheet.yaml`
writeFileSync(filled, replaced(readFileSync(answers, 'utf8'), '2026-03-02T', '2026-03-04T'))
lockwright(['enter', procedure, filled, '--site', site, '--by', 'mira', '--worked-by', 'tor', '--sheet', serial], {
  passphrase: passphrases.mira
})
lockwright(['sheets', 'list', site])
say('\nInk cannot be checked by a program, so the audit says where to look at the sheet:')
const [paper] = readdirSync(`${site}/runs`).filter((name) =>
  readFileSync(`${site}/runs/${name}`, 'utf8').includes('"onPaper"')
)
lockwright(['audit', `${site}/runs/${paper}`, '--html', `${out}/audit-of-the-sheet.html`], { expected: 1, lines: 39 })

title('7. A few lines to keep elsewhere, and the audit that holds the site against them')
lockwright(['log', 'checkpoint', site])
const [note] = readdirSync(`${site}/log/checkpoints`)
cpSync(`${site}/log/checkpoints/${note}`, kept)
lockwright(['audit', site, '--checkpoint', kept, '--html', `${out}/audit.html`, '--pdf', `${out}/audit.pdf`], {
  expected: 1,
  lines: 12
})

title('What lies where')
const lies = [
  [sheet, 'the checklist for a technician with a clipboard'],
  [sideBySide, 'the same for every cabinet, English and Spanish side by side'],
  [placard, 'the page that hangs beside the machine'],
  [variation, 'the procedure that was refused'],
  [`${site}/people.yaml`, 'the roster; the keys lie encrypted in keys/ beside it'],
  [`${site}/issued/`, 'what was issued, with its signature'],
  [`${site}/runs/`, 'the journals of both runs, one line an entry'],
  [filled, 'what stood on the sheet: the scripted answers, two days later'],
  [kept, 'what the log of closed runs was: with it a run that is taken out later is missed'],
  [`${out}/audit.html`, 'the audit of both runs, for a browser; audit.pdf beside it is for the file']
]
for (const [path, what] of lies) say(`  ${path.padEnd(52)} ${what}`)
say('')
say('What to try next:')
say(`  npx lockwright step ${procedure} --site ${site} --by tor`)
say(`      the same on the whole screen (passphrase of tor: ${passphrases.tor})`)
say('  npx lockwright explain work-proven')
say(`  change a line of a journal in ${site}/runs, then: npx lockwright audit ${site}`)
say(`  take any lock, relieve or prove step out of a copy of ${procedure}, then: npx lockwright check COPY`)
say('')
say('The demo shows what was proved and recorded of an invented machine. For a real one follow the rules of the')
say('plant, local codes and qualified people; the tool replaces none of them.')

function person(id, flags) {
  lockwright(['people', 'add', id, ...flags, '--from', '2026-01-01', '--site', site], { passphrase: passphrases[id] })
}

/** Runs the command as a user would, shows and gives back what it says, and stops the demo where it ends otherwise than it should. */
function lockwright(args, { expected = 0, passphrase = '', lines = Number.POSITIVE_INFINITY, clock = null } = {}) {
  say(`\n$ npx lockwright ${args.map(quoted).join(' ')}`)
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    [...setTo(clock), 'packages/cli/bin/lockwright.mjs', ...args],
    {
      encoding: 'utf8',
      env: {
        ...process.env,
        ...(clock === null ? {} : { DEMO_CLOCK: clock }),
        LOCKWRIGHT_ROOT_PASSPHRASE: passphrases.root,
        LOCKWRIGHT_PASSPHRASE: passphrase,
        LOCKWRIGHT_DEMO_TOR: passphrases.tor,
        LOCKWRIGHT_DEMO_MIRA: passphrases.mira
      }
    }
  )
  const said = `${stderr}${stdout}`.trimEnd().split('\n')
  if (lines > 0) say(said.slice(0, lines).join('\n'))
  if (said.length > lines && lines > 0) say(`... and ${said.length - lines} lines more`)
  say(`(exit code ${status})`)
  if (status !== expected) {
    say(`\nThe demo expected exit code ${expected} and stops here.${lines === 0 ? `\n${said.join('\n')}` : ''}`)
    process.exit(1)
  }
  return said.join('\n')
}

function setTo(clock) {
  return clock === null ? [] : ['--import', './examples/demo/set-clock.mjs']
}

function replaced(whole, part, by) {
  if (!whole.includes(part)) throw new Error(`nothing holds ${part} any more`)
  return whole.replaceAll(part, by)
}

function quoted(argument) {
  return /^[\w./=-]+$/.test(argument) ? argument : `"${argument}"`
}

function title(line) {
  say(`\n${line}\n${'='.repeat(line.length)}`)
}

function say(line) {
  process.stdout.write(`${line}\n`)
}
