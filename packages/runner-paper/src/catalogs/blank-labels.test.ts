import { describe, expect, it } from 'vitest'
import type { Blank } from '../blocks/block.js'
import { layOut } from '../blocks/lay-out.js'
import { catalogFor, sheetLanguages } from '../catalog.js'
import { openDocument } from '../draw/open-document.js'
import { type as sizes } from '../draw/style.js'
import { buildSheet } from '../sheet/build-sheet.js'
import { proved, written } from '../translations/compiled.fixture.js'
import { machineInLanguage } from '../translations/machine-in-language.js'

/** The narrowest place to write in of each size, in points, less the space before the label. */
const room: Readonly<Record<Blank['size'], number>> = { short: 62 - 3, medium: 98 - 3, long: 260 - 3 }

function blanksIn(value: unknown): readonly Blank[] {
  if (Array.isArray(value)) return value.flatMap(blanksIn)
  if (value === null || typeof value !== 'object') return []
  const own = 'size' in value && 'label' in value ? [value as Blank] : []
  return [...own, ...Object.values(value).flatMap(blanksIn)]
}

describe('the labels of blanks', () => {
  it.each(sheetLanguages)('fit into their boxes in %s', async (language) => {
    const facts = { language, title: '', subject: '', author: '', made: undefined }
    const { fonts, document } = await openDocument({ width: 100, height: 100 }, facts)
    document.addPage()
    document.end()
    const catalog = catalogFor(language, language)
    const options = { paper: 'a4', issue: { kind: 'draft' }, digest: 'ab12'.repeat(16) } as const
    for (const name of ['booster-pump-precharge.md', 'baling-press-platen.md']) {
      const { machine } = proved(written(name))
      const blocks = layOut(buildSheet(machineInLanguage(machine, catalog)), options, catalog)
      const fixed = [catalog.heads.initials, catalog.heads.time].map((label): Blank => ({ label, size: 'short' }))
      const blanks = [...blanksIn(blocks), ...fixed]
      expect(blanks.length).toBeGreaterThan(10)
      const wide = ({ label }: Blank): number => fonts.width(`${label}: `, 'regular', sizes.tiny)
      expect(blanks.filter((blank) => wide(blank) > room[blank.size]).map(({ label }) => label)).toEqual([])
    }
  })
})
