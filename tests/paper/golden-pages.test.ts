import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import pixelmatch from 'pixelmatch'
import { PNG } from 'pngjs'
import { describe, expect, it } from 'vitest'
import { isHere, pictures, provedFile, root, sheetOf } from './paper-tools.js'

const folder = join(root, 'tests/paper/golden')
const resolution = 100
/** Of all pixels. Another version of poppler may set an edge a little differently; a line that moved is far more. */
const tolerance = 0.002

const pump = 'procedures/booster-pump-precharge.md'
const press = 'procedures/baling-press-platen.md'
/** What a technician meets first, the map, notices before gates, generations beside each other, what is signed, what was checked. */
const pages = [
  { name: 'first-page', file: pump, page: 1 },
  { name: 'map', file: pump, page: 3 },
  { name: 'gates', file: pump, page: 6 },
  { name: 'generations', file: pump, page: 8 },
  { name: 'signatures', file: pump, page: 11 },
  { name: 'loops', file: press, page: 14 }
] as const

describe.runIf(isHere('pdftoppm'))('a page at 100 dots an inch, in grey', () => {
  it.each(pages)('$name is what it was', async ({ name, file, page }) => {
    const [drawn] = pictures(await sheetOf(provedFile(file), { serial: 'S-000017' }), resolution, { only: page })
    if (drawn === undefined) throw new Error(`the sheet has no page ${page}`)
    const golden = join(folder, `${name}.png`)
    if (process.env['UPDATE_FIXTURES'] === '1' || !existsSync(golden)) {
      if (process.env['UPDATE_FIXTURES'] !== '1')
        throw new Error(`${golden} is missing; UPDATE_FIXTURES=1 draws it, and it has to be looked at`)
      mkdirSync(folder, { recursive: true })
      writeFileSync(golden, PNG.sync.write(drawn, { colorType: 0 }))
    }
    const kept = PNG.sync.read(readFileSync(golden))
    expect([drawn.width, drawn.height]).toEqual([kept.width, kept.height])
    const differing = pixelmatch(drawn.data, kept.data, undefined, kept.width, kept.height, { threshold: 0.3 })
    expect(differing / (kept.width * kept.height)).toBeLessThan(tolerance)
  })

  it('would be told from one on which a single line of text differs', async () => {
    const machine = provedFile(pump)
    const [one] = pictures(await sheetOf(machine), resolution, { only: 1 })
    const [other] = pictures(await sheetOf({ ...machine, scope: 'Nothing of the kind' }), resolution, { only: 1 })
    if (one === undefined || other === undefined) throw new Error('the sheet has a first page')
    const differing = pixelmatch(one.data, other.data, undefined, one.width, one.height, { threshold: 0.3 })
    expect(differing / (one.width * one.height)).toBeGreaterThan(tolerance)
  })
})
