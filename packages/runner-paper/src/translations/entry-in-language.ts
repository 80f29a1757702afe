import type { CurvePlot, EnergySheet, SheetEntry } from '@lockwright/energy'
import type { Catalog } from '../catalog.js'
import { rephrase } from './rephrase.js'

/** What was reckoned of a source, its comparisons and findings worded as the catalog says. */
export function entryInLanguage(entry: SheetEntry, catalog: Catalog): SheetEntry {
  const { felt, curve } = entry
  const say = sayIn(catalog)
  return {
    ...entry,
    ...(felt === undefined ? {} : { felt: say(felt) }),
    ...(curve === undefined ? {} : { curve: { ...curve, title: say(curve.title) } }),
    findings: entry.findings.map(say),
    advice: entry.advice.map(say)
  }
}

/** A calculation sheet, each of its entries so. */
export function sheetInLanguage(sheet: EnergySheet, catalog: Catalog): EnergySheet {
  return { ...sheet, entries: sheet.entries.map((entry) => entryInLanguage(entry, catalog)) }
}

/** A plot, its words as the catalog says and its figures as there. */
export function plotInLanguage(plot: CurvePlot, catalog: Catalog): CurvePlot {
  const say = sayIn(catalog)
  return {
    ...plot,
    title: say(plot.title),
    description: say(plot.description),
    marks: plot.marks.map((mark) => (mark.kind === 'text' ? { ...mark, text: say(mark.text) } : mark))
  }
}

/** One text of the energy package in the catalog's language. Formulas keep their decimal points, as their sources have them. */
export function sayIn({ energy, decimal }: Catalog): (text: string) => string {
  return (text) => {
    const told = rephrase(text, energy.phrases)
    return decimal === 'point' || told.includes(' = ') ? told : told.replace(figure, '$1,$2')
  }
}

/** A number with decimals that a unit follows, or that stands alone; numbers of rules and standards are neither. */
const figure =
  /(?<![\d.])(\d+)\.(\d+)(?![\d.])(?=$|[ \u00A0](?:[munµkMG]?(?:V|A|J|F|Pa|W|Ω|H|C|g|m|s|N|L|bar)\b|[munµkMG]?(?:Ω|%)|psi|lb|ft|in\b|gal|rpm|rad|°|min|h\b|t\b|%|±))/gu
