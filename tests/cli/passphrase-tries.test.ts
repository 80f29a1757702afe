import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, it } from 'vitest'
import { hasPseudoTerminals, openPseudoTerminal } from './pseudo-terminal.js'
import { command, lockwright } from './transcript.js'

/** At a terminal a person may have mistyped; whoever guesses gets no further than the third time. */
it.runIf(hasPseudoTerminals)('asks three times for a passphrase at a terminal', { timeout: 60_000 }, async () => {
  const cwd = mkdtempSync(join(tmpdir(), 'lockwright-tries-'))
  try {
    const env = { LOCKWRIGHT_ROOT_PASSPHRASE: 'for this test only' }
    const init = lockwright(['people', 'init', '--site', 'site', '--name', 'Sandholm waterworks'], { cwd, env })
    expect(init.code).toBe(0)
    const terminal = await openPseudoTerminal(
      [process.execPath, command, 'people', 'shift', '--hours', '8', '--site', 'site'],
      { columns: 200, rows: 40, cwd, env: { PATH: process.env['PATH'], HOME: cwd, TERM: 'dumb' } }
    )
    for (const after of ['It can be typed twice more.', 'It can be typed once more.', 'people root-lost --help']) {
      await terminal.until('root key of site: ')
      terminal.type('not the one\r')
      await terminal.until(after)
    }
    await terminal.gone
    // Elsewhere it is given once: nobody is there to have mistyped it.
    const given = lockwright(['people', 'shift', '--hours', '8', '--site', 'site'], {
      cwd,
      env: { LOCKWRIGHT_ROOT_PASSPHRASE: 'not the one' }
    })
    expect(given.code).toBe(2)
    expect(given.said.match(/does not open the key/g)?.length).toBe(1)
    expect(given.said).not.toContain('not the one')
  } finally {
    rmSync(cwd, { recursive: true, force: true })
  }
})
