import type { Block } from '../blocks/block.js'
import type { Catalog } from '../catalog.js'
import { sayIn } from './entry-in-language.js'

/**
 * The blocks of a calculation sheet, each text of the energy package in them worded as the catalog says. Only texts
 * that a phrase fits as a whole are touched, and decimals; what names a thing or a code is left alone.
 */
export function blocksInLanguage(blocks: readonly Block[], catalog: Catalog): readonly Block[] {
  if (catalog.language === 'en') return blocks
  return blocks.map((block) => (block.kind === 'title' ? block : (mapTexts(block, titled(catalog)) as Block)))
}

/** The one title with a word in it that changes. */
const venting = /^Time to vent through the bore, \w+$/

/** Also a known title with what came of it behind a colon. */
function titled(catalog: Catalog): (text: string) => string {
  const say = sayIn(catalog)
  const { colon, phrases } = catalog.energy
  return (text) => {
    const [, title = '', rest = ''] = /^(.+?): (.*)$/s.exec(text) ?? []
    const known = venting.test(title) || phrases.some(([english]) => english === title)
    return known ? `${say(title)}${colon}${say(rest)}` : say(text)
  }
}

function mapTexts(value: unknown, say: (text: string) => string): unknown {
  if (Array.isArray(value)) return value.map((each) => mapTexts(each, say))
  if (value === null || typeof value !== 'object') return value
  return Object.fromEntries(
    Object.entries(value).map(([key, each]) => [
      key,
      (key === 'text' || key === 'head' || key === 'heading') && typeof each === 'string'
        ? say(each)
        : mapTexts(each, say)
    ])
  )
}
