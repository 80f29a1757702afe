import type { Catalog } from '../catalog.js'

/** Deutsche Texte des Formulars: Blattnummer, Ablauf, Bilder. */
export const germanForm: Catalog['form'] = {
  serial: 'Blattnummer',
  noSerial: 'keine: dieses Blatt ist in den Aufzeichnungen nicht bekannt',
  began: 'Beginn der Arbeit am (wie 2026-03-04)',
  clock: 'Uhrzeiten gelten in',
  sheet: (serial) => `Blatt ${serial}`,
  sheetWithout: 'Blatt ohne Nummer',
  flow: 'Der Ablauf',
  flowTell:
    'Eine Zeile je Schritt, von oben nach unten; Linien rechts führen weiter, Linien links führen zurück. Ein Weg, der diesen Teil der Übersicht verlässt, nennt seinen Schritt.',
  flowOf: (steps) =>
    `Übersicht des Ablaufs: ${steps} Schritte; auf jeden folgt der nächste, wenn hier nichts anderes steht.`,
  turn: (from, answer, to) => `Von ${from}${answer === '' ? '' : `, „${answer}“`}: ${to}.`,
  offSheet: 'anderes Blatt',
  computed: 'Berechnete Werte',
  safeLevel: 'Sicherer Wert',
  waits: 'Wartezeiten und worauf sie beruhen',
  notShown: (alternate) => `Bild nicht gedruckt: ${alternate}`
}
