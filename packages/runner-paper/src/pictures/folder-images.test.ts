import { mkdirSync, mkdtempSync, rmSync, symlinkSync, truncateSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { folderImages } from './folder-images.js'
import { madePng } from './made-picture.fixture.js'

const outer = mkdtempSync(join(tmpdir(), 'lockwright-pictures-'))
const folder = join(outer, 'procedures')
const png = madePng({ width: 1, height: 1 }, 2, [[0, 1, 2, 3]])

beforeAll(() => {
  mkdirSync(join(folder, 'pictures'), { recursive: true })
  for (const name of ['door.png', 'pictures/two words.png', 'named.jpg']) writeFileSync(join(folder, name), png)
  writeFileSync(join(outer, 'secret.png'), png)
  writeFileSync(join(folder, 'large.png'), png)
  truncateSync(join(folder, 'large.png'), 9 * 1024 * 1024)
  symlinkSync(join(outer, 'secret.png'), join(folder, 'out.png'))
  symlinkSync(outer, join(folder, 'up'))
  symlinkSync(join(folder, 'door.png'), join(folder, 'within.png'))
})
afterAll(() => rmSync(outer, { recursive: true, force: true }))

describe('the pictures of a folder', () => {
  it.each(['door.png', './door.png', 'pictures/two%20words.png', 'pictures/two words.png', 'named.jpg', 'within.png'])(
    'are found by %s',
    (source) => {
      expect(folderImages(folder).load(source)).toMatchObject({ ok: true, picture: { kind: 'pixels' } })
    }
  )

  it.each([
    ['../secret.png', 'leads out'],
    ['pictures/../../secret.png', 'leads out'],
    ['%2e%2e/secret.png', 'leads out'],
    ['..\\secret.png', 'leads out'],
    [join(outer, 'secret.png'), 'leads out'],
    ['file:///etc/hostname', 'leads out'],
    ['https://example.org/x.png', 'leads out'],
    ['~/x.png', 'leads out'],
    ['door.png\u0000.svg', 'leads out'],
    ['%', 'leads out'],
    ['', 'leads out'],
    ['out.png', 'link leads out'],
    ['up/secret.png', 'link leads out'],
    ['pictures', 'not a file'],
    ['absent.png', 'cannot be read'],
    ['large.png', '8 MiB']
  ])('are refused by %j', (source, what) => {
    const images = folderImages(folder)
    expect(images.load(source)).toMatchObject({ ok: false, fault: { source, what: expect.stringContaining(what) } })
    images.load(source)
    expect(images.faults()).toHaveLength(1)
  })
})
