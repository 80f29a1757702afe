import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { command, replayed, root } from './transcript.js'

const folder = join(root, 'tests/cli')
const transcripts = readdirSync(folder).filter((name) => name.endsWith('.md'))

/**
 * Each transcript reads as a page of a manual, and every command in it is run. After a change that is meant:
 * `npx vitest run tests/cli --update`, then read the difference.
 */
describe('the command line', () => {
  it('is built', () => {
    expect(existsSync(command)).toBe(true)
    expect(existsSync(join(root, 'packages/cli/dist/lockwright.mjs'))).toBe(true)
  })

  it.each(transcripts)('does what %s says', { timeout: 120_000 }, async (name) => {
    const page = readFileSync(join(folder, name), 'utf8')
    expect(page).toContain('\n$ ')
    await expect(replayed(page)).toMatchFileSnapshot(join(folder, name))
  })

  it('does in the README what the README says', { timeout: 120_000 }, async () => {
    const readme = readFileSync(join(root, 'README.md'), 'utf8')
    await expect(replayed(readme)).toMatchFileSnapshot(join(root, 'README.md'))
  })
})
