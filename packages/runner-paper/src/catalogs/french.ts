import type { Catalog } from '../catalog.js'
import { duration } from '../text/duration.js'
import { frenchEnergy } from './french-energy.js'
import { frenchForm } from './french-form.js'
import { frenchHanging } from './french-hanging.js'
import { frenchKinds } from './french-kinds.js'
import { frenchMade } from './french-made.js'
import { frenchSteps } from './french-steps.js'
import { momentIn, numbersOf } from './numbers-of.js'

const { plural, ...numbers } = numbersOf('fr-FR')

/**
 * The fixed wording in French. Terms after the French EN ISO 12100, EN ISO 14118, EN 50110-1 and NF C 18-510, signal
 * words after ISO 3864-2, all from memory; nobody of the trade has reviewed this translation yet.
 */
export const french: Catalog = {
  language: 'fr',
  ...numbers,
  plural,
  moment: momentIn('fr-FR', (day, month, year, time) => `${day === '1' ? '1er' : day} ${month} ${year}, ${time}`),
  sheet: 'Feuille de consignation et de travail',
  draft: 'PROJET',
  notIssued: "non émise pour l'usage",
  issued: (by, at) => `Émise par ${by}, ${at}`,
  printed: (at) => `Imprimée le ${at}`,
  forGeneration: (names) => `seulement pour ${names}`,
  page: (number, count) => `Page ${number} sur ${count}`,
  running: {
    revision: (procedure, revision) => `${procedure}, révision ${revision}`,
    digest: (procedure, revision, digest) => `${procedure} révision ${revision}, empreinte ${digest}`
  },
  none: 'aucun',
  continued: 'suite',
  opens: { again: 'encore une fois', continued: 'suite' },
  ...frenchKinds,
  signalWords: { danger: 'DANGER', warning: 'AVERTISSEMENT', caution: 'ATTENTION', notice: 'AVIS' },
  energy: frenchEnergy,
  form: frenchForm,
  made: frenchMade,
  hanging: frenchHanging,
  orders: {
    general: "condamner, puis dissiper l'énergie accumulée (29 CFR 1910.147(d))",
    electrical: "dissiper l'énergie accumulée, puis condamner (29 CFR 1910.333(b)(2))"
  },
  facts: {
    equipment: 'Équipement',
    place: 'Lieu',
    scope: "Domaine d'application",
    procedure: 'Procédure',
    revision: 'Révision',
    generation: 'Variante',
    digest: 'Empreinte (SHA-256)',
    order: 'Ordre du travail',
    issue: "État d'émission",
    noStartControl: 'Aucune commande de marche à essayer',
    names: 'Noms des étapes',
    namesTell: 'En petits caractères après chaque titre\u00A0: ce que demande «\u00A0lockwright enter\u00A0».'
  },
  parts: {
    sources: "Sources d'énergie",
    leftOn: 'Reste en marche pendant le travail',
    points: 'Organes de séparation',
    restraints: 'Retenues',
    things: 'À réunir avant le premier cadenas',
    tools: 'Outils et instruments',
    spares: 'Pièces',
    wear: 'Équipements de protection',
    people: 'Personnes à ce travail',
    waivers: 'Obligations dispensées',
    cautions: 'Avant toute chose',
    legend: 'Formes sur cette feuille',
    signatures: 'Signatures',
    deviations: 'Écarts',
    notes: 'Notes',
    proof: 'Ce qui a été vérifié'
  },
  heads: {
    source: 'Source et grandeur',
    isolate: 'Séparée à (position sûre)',
    release: 'Dissipée ou retenue\u00A0; attente',
    verify: 'Absence vérifiée',
    point: 'Organe',
    where: 'Lieu',
    safe: 'Position sûre',
    lock: 'Numéro de cadenas',
    name: 'Nom',
    restraint: 'Retenue',
    holds: 'Retient',
    on: 'Posée',
    off: 'Déposée',
    why: 'Pourquoi',
    permit: 'Autorisé par',
    qualification: 'Qualification',
    roleAndQualification: 'Fonction, qualification',
    nameAndTime: 'Nom, heure',
    initials: 'Initiales',
    locksHung: 'Cadenas posés, numéros',
    locksOff: 'Cadenas ôtés, heure',
    time: 'Heure',
    obligation: 'Obligation',
    by: 'Par',
    step: 'Étape',
    meaning: 'Sens de la signature',
    signature: 'Signature',
    date: 'Date, heure',
    deviation: 'Ce qui a été fait autrement, et pourquoi',
    qualified: 'Personne qualifiée, signature',
    note: 'Note'
  },
  tells: {
    fedBy: (names) => `alimentée par ${names}`,
    unfed: (why) => `rien ne l'alimente\u00A0: ${why}`,
    guarded: (how) => `protégée\u00A0: ${how}`,
    rebuilds: "son énergie peut revenir d'elle-même",
    conductors: (names) => `conducteurs ${names}`,
    noDevice: 'aucun organe de séparation',
    letOut: (steps) => `dissipée à ${steps}`,
    heldBy: (names) => `retenue par ${names}`,
    storesNothing: "n'accumule rien",
    noRelease: 'pas dissipée sur cette feuille',
    wait: (seconds) => `attendre ${duration(seconds)}`,
    because: {
      written: 'comme dit la procédure',
      label: 'comme dit la plaque',
      computed: "comme calculé\u00A0: cas le plus lent jusqu'au niveau sûr"
    },
    verified: (steps) => `à ${steps}`,
    withWhat: (names) => `avec ${names}`,
    trial: 'en essayant de le bouger',
    staysOn: 'reste en marche pendant le travail',
    notVerified: 'pas vérifiée sur cette feuille',
    steps: (numbers) => `${plural(numbers.length, { one: "l'étape", other: 'les étapes' })} ${numbers.join(', ')}`,
    step: (number) => `étape ${number}`,
    normalOff: 'normalement coupé',
    needsPower: (why) => `ne sort qu'avec l'énergie revenue\u00A0: ${why}`,
    rails: (names) => `${names} seulement`
  },
  ...frenchSteps,
  cautions: [
    "Les règles de l'usine, la réglementation locale et les personnes qualifiées sur place passent avant. Cette feuille n'en remplace aucune.",
    "Chaque personne qui travaille sous cette consignation pose d'abord son propre cadenas, et le dépose elle-même.",
    "Si quelque chose diffère de ce qui est imprimé ici, s'arrêter, laisser les cadenas, et demander au coordinateur.",
    "La procédure a été vérifiée pour les obligations citées à la dernière page. Cela n'affirme pas que le travail soit sûr."
  ],
  legend: {
    gate: "Un point d'arrêt\u00A0: fait, refait, ou le travail s'arrête. Jamais sauté, jamais changé.",
    step: 'Une étape ordinaire.',
    box: 'Cocher une fois fait.',
    circle: 'Cocher ce qui convient.',
    rail: 'Seulement pour la variante nommée à côté.',
    way: "Continuer à l'étape nommée."
  },
  closing: {
    deviation: "Un point d'arrêt n'est jamais fait autrement\u00A0: il est fait, refait, ou le travail s'arrête.",
    claim:
      "Cela a été vérifié de la procédure telle qu'elle est écrite. Ce n'est pas affirmer que le travail soit sûr\u00A0: les règles de l'usine, la réglementation locale et les personnes qualifiées décident.",
    completed: 'Feuille remplie',
    entered: 'Portée au registre',
    proof: (procedure, revision, digest) => `Procédure ${procedure}, révision ${revision}, empreinte ${digest}.`,
    sizes: (states, configurations) =>
      `Exploré\u00A0: ${states} états de la machine, ${configurations} configurations atteignables de la machine et des énergies.`,
    proven: 'Obligations tenues dans toute configuration atteignable',
    waived: 'Obligations dispensées',
    notArising: 'Obligations qui ne se présentent pas dans cette procédure',
    noReport:
      'Seule une procédure dont toutes les obligations sont tenues, ou dispensées comme indiqué, peut être imprimée. lockwright check en donne la liste.',
    missing: (codes) =>
      `Les polices de cette feuille ne peuvent pas montrer ${codes}\u00A0; un signe de remplacement en tient lieu. Y lire la procédure elle-même.`
  }
}
