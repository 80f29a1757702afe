import { english } from './catalogs/english.js'
import { french } from './catalogs/french.js'
import { german } from './catalogs/german.js'
import { spanish } from './catalogs/spanish.js'

export { english }

/** All fixed wording of what is printed, in one language. Every language is complete: the compiler refuses a gap. */
export type Catalog = typeof english

const catalogs = { en: english, es: spanish, de: german, fr: french } as const satisfies Record<string, Catalog>

/** A language that the fixed wording is there in. */
export type SheetLanguage = keyof typeof catalogs

/** In the order in which they are offered. */
export const sheetLanguages: readonly SheetLanguage[] = ['en', 'es', 'de', 'fr']

/** The fixed wording of a sheet: as asked for, else of the language that the procedure is written in, else English. */
export function catalogFor(asked: SheetLanguage | undefined, written: string): Catalog {
  return (asked === undefined ? catalogOf(written) : catalogs[asked]) ?? english
}

/** The fixed wording in a language, by its BCP 47 tag (`es`, `es-MX`); undefined where there is none. */
export function catalogOf(language: string): Catalog | undefined {
  const primary = language.toLowerCase().split('-')[0] ?? ''
  const known = sheetLanguages.find((each) => each === primary)
  return known === undefined ? undefined : catalogs[known]
}
