import type { Catalog } from '../catalog.js'

const list = (names: readonly string[]): string =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} et ${names.at(-1)}`

/** French wording of what the compiler makes in English. */
export const frenchMade: Catalog['made'] = {
  before: {
    notify: 'Prévenir\u00A0:',
    operate: 'Manœuvrer\u00A0:',
    look: 'Regarder\u00A0:',
    live: 'Essai sous tension\u00A0:',
    shutdown: "Mettre à l'arrêt\u00A0:",
    tryout: 'Tenter un démarrage\u00A0:',
    signoff: 'Signer\u00A0:',
    work: 'Travail\u00A0:',
    measure: 'Mesurer\u00A0:',
    wait: 'Attendre\u00A0:',
    inspect: 'Contrôler\u00A0:',
    clear: 'Évacuer\u00A0:',
    stop: "S'arrêter\u00A0:"
  },
  bare: {
    notify: 'Prévenir les personnes concernées',
    operate: 'Manœuvrer avec les commandes normales',
    look: 'Regarder sans toucher',
    shutdown: "Mettre à l'arrêt avec les commandes normales",
    tryout: "Actionner la commande de marche, puis la ramener à l'arrêt",
    work: 'Travail\u00A0: à la main',
    measure: 'Mesurer',
    wait: 'Attendre',
    inspect: 'Contrôler\u00A0: outils retirés, protecteurs en place',
    clear: 'Éloigner toutes les personnes de la machine',
    stop: 'Arrêter le travail ici',
    finish: 'Remettre en service',
    gather: 'Réunir outils, pièces et équipements de protection',
    notice: 'Lire avant de continuer',
    remedies: "Essayer les remèdes dans l'ordre"
  },
  titles: {
    live: (names) => `Essai sous tension près de ${list(names)}`,
    identify: (axis) => `Identifier la variante\u00A0: ${axis}`,
    isolate: (names) => `Séparer ${list(names)}\u00A0: position sûre`,
    lock: (names) => `Condamner et signaler ${list(names)}`,
    relieve: (names) => `Dissiper l'énergie\u00A0: ${list(names)}`,
    restrain: (names) => `Poser ${list(names)}`,
    lamp: (names, expect) => `Regarder le voyant de ${list(names)}\u00A0: ${expect === 'dark' ? 'éteint' : 'allumé'}`,
    prove: (names) => `Vérifier l'absence d'énergie\u00A0: ${list(names)}`,
    trial: (names) => `Vérifier l'absence d'énergie en essayant de bouger\u00A0: ${list(names)}`,
    sign: (role) => `Signer en tant que ${role}`,
    remove: (names) => `Déposer ${list(names)}`,
    putOn: (names) => `Poser : ${list(names)}`,
    takeOff: (names) => `Déposer : ${list(names)}`,
    unlock: (names) => `Décondamner ${list(names)}`,
    energize: (names) => `Remettre sous énergie ${list(names)}`,
    branch: (axis) => `Selon la variante\u00A0: ${axis}`,
    only: (values) => `Seulement pour ${values}`,
    within: (seconds) => `En moins de ${seconds} s`,
    back: (to) => `Revenir à ${to}`
  },
  yes: 'Oui',
  no: 'Non',
  remedy: (number, count, label) => `Remède ${number} sur ${count}\u00A0: ${label}`,
  pair: (first, second) => `${first} à ${second}`,
  earth: 'terre',
  details: {
    measures: (what) => `mesure\u00A0: ${what}`,
    rated: (volts) => `tension assignée ${volts}`,
    category: (category) => `catégorie de mesure ${category}`,
    range: (low, high) => `étendue ${low} à ${high}`,
    size: (size) => `taille ${size}`,
    torque: (torque) => `couple ${torque}`,
    calibration: 'étalonnage valable',
    number: (number) => `numéro\u00A0: ${number}`,
    quantity: (quantity) => `quantité\u00A0: ${quantity}`,
    glove: (glove) => `classe ${glove}`
  },
  measured: {
    voltage: 'tension',
    pressure: 'pression',
    speed: 'vitesse',
    temperature: 'température',
    current: 'courant'
  }
}
