import type { Catalog } from '../catalog.js'

/**
 * The fixed wording that a site can put in its own words: names of things and headings. Signal words, cautions,
 * what a step refers to, legends, limits, the state of issue and what was proved are not among them.
 */
export const wordingKeys = [
  'sheet',
  'parts.tools',
  'parts.spares',
  'parts.wear',
  'parts.notes',
  'facts.equipment',
  'facts.place',
  'facts.scope',
  'facts.generation',
  'heads.qualification',
  'heads.roleAndQualification',
  'heads.initials',
  'heads.name',
  'heads.nameAndTime',
  'heads.signature',
  'heads.note'
] as const

export type WordingKey = (typeof wordingKeys)[number]

/** The catalog with a site's own words in place of its own. */
export function withWording(catalog: Catalog, wording: Readonly<Partial<Record<WordingKey, string>>>): Catalog {
  const { sheet, parts, facts, heads } = catalog
  const pick = (group: string): Readonly<Record<string, string>> =>
    Object.fromEntries(
      Object.entries(wording).flatMap(([key, text]) =>
        key.startsWith(`${group}.`) ? [[key.slice(group.length + 1), text]] : []
      )
    )
  return {
    ...catalog,
    sheet: wording.sheet ?? sheet,
    parts: { ...parts, ...pick('parts') },
    facts: { ...facts, ...pick('facts') },
    heads: { ...heads, ...pick('heads') }
  }
}
