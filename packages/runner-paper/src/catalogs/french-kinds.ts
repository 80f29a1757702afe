import type { Catalog } from '../catalog.js'

type Kinds = Pick<Catalog, 'sourceKinds' | 'restraintKinds' | 'bars' | 'quantities'>

/** French names of kinds; terms as in the French EN ISO 14118 and NF C 18-510, from memory. */
export const frenchKinds: Kinds = {
  sourceKinds: {
    electrical: 'alimentation électrique',
    capacitor: 'condensateur chargé',
    battery: 'batterie',
    magnet: 'champ magnétique',
    rotating: 'masse tournante',
    gravity: 'charge levée',
    spring: 'ressort',
    gas: 'gaz sous pression',
    liquid: 'liquide sous pression',
    thermal: 'chaleur ou froid',
    other: 'autre énergie'
  },
  restraintKinds: {
    earth: 'mise à la terre',
    short: 'mise en court-circuit',
    block: 'cale',
    pin: 'broche',
    cover: 'capot',
    blank: 'joint plein',
    chain: 'chaîne',
    other: 'autre retenue'
  },
  bars: {
    gather: 'PRÉPARER',
    notify: 'PRÉVENIR',
    operate: 'MANŒUVRER',
    look: 'REGARDER SANS TOUCHER',
    live: 'ESSAI SOUS TENSION',
    shutdown: "METTRE À L'ARRÊT",
    identify: 'QUELLE VOIE',
    isolate: 'SÉPARER',
    lock: 'CONDAMNER ET SIGNALER',
    relieve: "DISSIPER L'ÉNERGIE",
    restrain: 'RETENIR',
    lamp: 'REGARDER, PAS UNE PREUVE',
    prove: "VÉRIFIER L'ABSENCE D'ÉNERGIE",
    tryout: 'TENTER UN DÉMARRAGE',
    signoff: 'SIGNER',
    work: 'TRAVAILLER',
    measure: 'MESURER',
    wait: 'ATTENDRE',
    inspect: 'CONTRÔLER',
    clear: 'ÉVACUER LA ZONE',
    remove: 'DÉPOSER',
    unlock: 'DÉCONDAMNER',
    energize: 'REMETTRE SOUS ÉNERGIE',
    stop: "S'ARRÊTER ICI",
    finish: 'REMIS EN SERVICE',
    ask: 'QUELLE VOIE',
    notice: 'LIRE',
    branch: 'QUELLE VOIE',
    timer: 'LE DÉLAI COMMENCE',
    back: 'REVENIR'
  },
  quantities: {
    voltage: '',
    pressure: '',
    speed: '',
    temperature: '',
    capacitance: '',
    inertia: '',
    mass: '',
    bleed: 'résistance de décharge',
    'label-wait': 'attente selon la plaque',
    'safe-below': 'sûr en dessous de',
    'fault-current': 'courant de court-circuit',
    'coast-down': "s'arrête en",
    'friction-torque': 'frottement',
    'gas-volume': 'volume de gaz',
    'bleed-bore': 'orifice de purge',
    'time-constant': 'constante de temps'
  }
}
