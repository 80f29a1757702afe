import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { PNG } from 'pngjs'
import { afterAll, expect, it } from 'vitest'
import { lockwright } from '../cli/transcript.js'
import { root } from './paper-tools.js'

const folder = mkdtempSync(join(tmpdir(), 'lockwright-issued-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))

const passphrases = { LOCKWRIGHT_ROOT_PASSPHRASE: 'root of the test', LOCKWRIGHT_PASSPHRASE: 'key of the test' }
const run = (...args: readonly string[]) => lockwright(args, { cwd: folder, env: passphrases })
const well = (...args: readonly string[]) => expect(run(...args)).toMatchObject({ code: 0 })
const print = (out: string, ...more: readonly string[]) => run('print', 'pump.md', '--out', out, ...more)

function put(shade: number): void {
  const png = new PNG({ width: 30, height: 20 })
  png.data.fill(shade)
  writeFileSync(join(folder, 'pictures/door.png'), PNG.sync.write(png))
}

function write(revision: number): void {
  const text = readFileSync(join(root, 'procedures/booster-pump-precharge.md'), 'utf8')
  const pictured = text
    .replace(/^revision: \d+$/m, `revision: ${revision}`)
    .replace('# Lock out\n', '# Lock out\n\n![Left door](pictures/door.png)\n')
  writeFileSync(join(folder, 'pump.md'), pictured)
}

it('a picture of an issued procedure that was changed, or that is gone, is not printed as issued', () => {
  mkdirSync(join(folder, 'pictures'))
  put(200)
  write(3)
  const issue = () => run('issue', 'pump.md', '--site', 'site', '--by', 'mira')
  well('people', 'init', '--site', 'site', '--name', 'Sandholm waterworks')
  well(
    'people',
    'add',
    'mira',
    '--name',
    'Mira Osk',
    '--holds',
    'coordinator',
    '--from',
    '2026-01-01',
    '--site',
    'site'
  )

  // What cannot be shown cannot be signed.
  rmSync(join(folder, 'pictures/door.png'))
  const unseen = issue()
  expect(unseen).toMatchObject({ code: 2, said: expect.stringContaining('pictures/door.png') })
  expect(unseen.said).toContain('The procedure names this picture, and it cannot be read')
  put(200)
  expect(issue()).toMatchObject({ code: 0 })
  expect(print('good.pdf', '--site', 'site').said).toContain('issued by Mira Osk')

  put(90)
  const changed = print('changed.pdf', '--site', 'site')
  expect(changed.code).toBe(2)
  for (const told of ['pictures/door.png', 'its file was changed', 'It may show another device', 'raise `revision`'])
    expect(changed.said).toContain(told)
  // As a draft it is still printed, and says so.
  expect(print('draft.pdf').said).toContain('marked DRAFT')

  rmSync(join(folder, 'pictures/door.png'))
  const missing = print('missing.pdf', '--site', 'site')
  expect(missing).toMatchObject({ code: 2, said: expect.stringContaining('cannot be read') })
  for (const file of ['changed.pdf', 'missing.pdf']) expect(existsSync(join(folder, file)), file).toBe(false)

  put(90)
  write(4)
  expect(issue()).toMatchObject({ code: 0 })
  expect(print('next.pdf', '--site', 'site').said).toContain('issued by Mira Osk')
  // A serial number is given to what is printed alone.
  expect(readdirSync(join(folder, 'site/sheets'))).toHaveLength(2)
}, 60_000)
