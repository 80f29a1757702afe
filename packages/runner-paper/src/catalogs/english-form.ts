/** English wording of what makes the sheet a form: its serial, its map, its pictures; a part of the catalog. */
export const englishForm = {
  serial: 'Sheet serial',
  noSerial: 'none: the records do not know this sheet',
  began: 'Work began on (written as 2026-03-04)',
  clock: 'Times are those of',
  sheet: (serial: string) => `sheet ${serial}`,
  sheetWithout: 'sheet without serial',
  flow: 'The way through',
  flowTell:
    'One line a step, from top to bottom; lines at the right lead on, lines at the left lead back. A way that leaves this part of the map names its step.',
  flowOf: (steps: number) => `Map of the procedure: ${steps} steps, each followed by the next unless told here.`,
  turn: (from: string, answer: string, to: string) => `From ${from}${answer === '' ? '' : `, “${answer}”`}: ${to}.`,
  offSheet: 'other sheet',
  computed: 'Computed values',
  safeLevel: 'Safe level',
  waits: 'Waits, and what each rests on',
  notShown: (alternate: string) => `Picture not printed: ${alternate}`
}
