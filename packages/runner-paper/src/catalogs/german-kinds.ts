import type { Catalog } from '../catalog.js'

type Kinds = Pick<Catalog, 'sourceKinds' | 'restraintKinds' | 'bars' | 'quantities'>

/** German names of kinds; the safety rules are called as in EN 50110-1 (DIN VDE 0105-100), from memory. */
export const germanKinds: Kinds = {
  sourceKinds: {
    electrical: 'elektrische Einspeisung',
    capacitor: 'geladener Kondensator',
    battery: 'Batterie',
    magnet: 'Magnetfeld',
    rotating: 'rotierende Masse',
    gravity: 'angehobene Last',
    spring: 'Feder',
    gas: 'Gas unter Druck',
    liquid: 'Flüssigkeit unter Druck',
    thermal: 'Wärme oder Kälte',
    other: 'andere Energie'
  },
  restraintKinds: {
    earth: 'Erdung',
    short: 'Kurzschließung',
    block: 'Abstützung',
    pin: 'Bolzen',
    cover: 'Abdeckung',
    blank: 'Steckscheibe',
    chain: 'Kette',
    other: 'andere Rückhaltung'
  },
  bars: {
    gather: 'BEREITLEGEN',
    notify: 'UNTERRICHTEN',
    operate: 'BEDIENEN',
    look: 'ANSEHEN, NICHT BERÜHREN',
    live: 'PRÜFEN UNTER SPANNUNG',
    shutdown: 'STILLSETZEN',
    identify: 'WELCHER WEG',
    isolate: 'FREISCHALTEN',
    lock: 'GEGEN WIEDEREINSCHALTEN SICHERN',
    relieve: 'ENERGIE ABBAUEN',
    restrain: 'ZURÜCKHALTEN',
    lamp: 'ANSEHEN, KEIN NACHWEIS',
    prove: 'ENERGIEFREIHEIT FESTSTELLEN',
    tryout: 'EINSCHALTVERSUCH',
    signoff: 'UNTERSCHREIBEN',
    work: 'ARBEITEN',
    measure: 'MESSEN',
    wait: 'WARTEN',
    inspect: 'KONTROLLIEREN',
    clear: 'GEFAHRENBEREICH RÄUMEN',
    remove: 'ABNEHMEN',
    unlock: 'SCHLÖSSER ABNEHMEN',
    energize: 'EINSCHALTEN',
    stop: 'HIER AUFHÖREN',
    finish: 'WIEDER IN BETRIEB',
    ask: 'WELCHER WEG',
    notice: 'LESEN',
    branch: 'WELCHER WEG',
    timer: 'ZEIT LÄUFT',
    back: 'ZURÜCKGEHEN'
  },
  quantities: {
    voltage: '',
    pressure: '',
    speed: '',
    temperature: '',
    capacitance: '',
    inertia: '',
    mass: '',
    bleed: 'Entladewiderstand',
    'label-wait': 'Wartezeit laut Schild',
    'safe-below': 'sicher unter',
    'fault-current': 'Kurzschlussstrom',
    'coast-down': 'läuft aus in',
    'friction-torque': 'Reibung',
    'gas-volume': 'Gasvolumen',
    'bleed-bore': 'Entlüftungsbohrung',
    'time-constant': 'Zeitkonstante'
  }
}
