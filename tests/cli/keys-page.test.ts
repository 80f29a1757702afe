import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, it } from 'vitest'
import { replayed, root } from './transcript.js'

/** The page for the day on which a key is lost or stolen: what it says was run. */
it('the page on keys says what the commands say', { timeout: 120_000 }, async () => {
  const page = join(root, 'packages/records/KEYS.md')
  const text = readFileSync(page, 'utf8')
  expect(text.match(/^\$ /gm)?.length).toBeGreaterThan(12)
  await expect(replayed(text)).toMatchFileSnapshot(page)
})
