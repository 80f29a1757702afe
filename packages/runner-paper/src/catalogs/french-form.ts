import type { Catalog } from '../catalog.js'

/** Textes français du formulaire : numéro de feuille, plan, images. */
export const frenchForm: Catalog['form'] = {
  serial: 'Numéro de feuille',
  noSerial: 'aucun\u00A0: cette feuille est inconnue des registres',
  began: 'Travail commencé le (par exemple 2026-03-04)',
  clock: 'Les heures sont celles de',
  sheet: (serial) => `feuille ${serial}`,
  sheetWithout: 'feuille sans numéro',
  flow: 'Le déroulement',
  flowTell:
    'Une ligne par étape, de haut en bas\u00A0; les lignes de droite mènent plus loin, celles de gauche ramènent en arrière. Un chemin qui quitte cette partie du plan nomme son étape.',
  flowOf: (steps) =>
    `Plan de la procédure\u00A0: ${steps} étapes, chacune suivie de la suivante sauf indication contraire.`,
  turn: (from, answer, to) => `Depuis ${from}${answer === '' ? '' : `, « ${answer} »`}\u00A0: ${to}.`,
  offSheet: 'autre feuille',
  computed: 'Valeurs calculées',
  safeLevel: 'Niveau sûr',
  waits: 'Attentes, et ce qui les fonde',
  notShown: (alternate) => `Image non imprimée\u00A0: ${alternate}`
}
