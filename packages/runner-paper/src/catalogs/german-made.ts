import type { Catalog } from '../catalog.js'

const list = (names: readonly string[]): string =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} und ${names.at(-1)}`

/** German wording of what the compiler makes in English. */
export const germanMade: Catalog['made'] = {
  before: {
    notify: 'Unterrichten:',
    operate: 'Bedienen:',
    look: 'Ansehen:',
    live: 'Prüfen unter Spannung:',
    shutdown: 'Stillsetzen:',
    tryout: 'Einschaltversuch:',
    signoff: 'Unterschreiben:',
    work: 'Arbeit:',
    measure: 'Messen:',
    wait: 'Warten:',
    inspect: 'Kontrollieren:',
    clear: 'Räumen:',
    stop: 'Aufhören:'
  },
  bare: {
    notify: 'Betroffene unterrichten',
    operate: 'Mit den üblichen Stellteilen bedienen',
    look: 'Ansehen, nicht berühren',
    shutdown: 'Mit den üblichen Stellteilen stillsetzen',
    tryout: 'Einschalten versuchen, dann zurück auf Aus',
    work: 'Arbeit: mit den Händen',
    measure: 'Messen',
    wait: 'Warten',
    inspect: 'Kontrollieren: Werkzeug heraus, Schutzeinrichtungen wieder an ihrem Platz',
    clear: 'Alle Personen aus dem Gefahrenbereich',
    stop: 'Die Arbeit hier beenden',
    finish: 'Wieder in Betrieb geben',
    gather: 'Werkzeug, Teile und Schutzausrüstung bereitlegen',
    notice: 'Vor dem Weitergehen lesen',
    remedies: 'Abhilfen der Reihe nach versuchen'
  },
  titles: {
    live: (names) => `Prüfen unter Spannung bei ${list(names)}`,
    identify: (axis) => `Feststellen, welche Ausführung es ist: ${axis}`,
    isolate: (names) => `Freischalten: ${list(names)}`,
    lock: (names) => `Gegen Wiedereinschalten sichern: ${list(names)}`,
    relieve: (names) => `Energie abbauen: ${list(names)}`,
    restrain: (names) => `Anbringen: ${list(names)}`,
    lamp: (names, expect) => `Lampe von ${list(names)} ansehen: ${expect === 'dark' ? 'dunkel' : 'leuchtet'}`,
    prove: (names) => `Energiefreiheit feststellen: ${list(names)}`,
    trial: (names) => `Energiefreiheit durch Versuch feststellen: ${list(names)}`,
    sign: (role) => `Unterschreiben als ${role}`,
    remove: (names) => `Abnehmen: ${list(names)}`,
    putOn: (names) => `Anbringen: ${list(names)}`,
    takeOff: (names) => `Abnehmen: ${list(names)}`,
    unlock: (names) => `Schlösser abnehmen: ${list(names)}`,
    energize: (names) => `Einschalten: ${list(names)}`,
    branch: (axis) => `Je nach Ausführung: ${axis}`,
    only: (values) => `Nur für ${values}`,
    within: (seconds) => `Innerhalb von ${seconds} s`,
    back: (to) => `Zurück zu ${to}`
  },
  yes: 'Ja',
  no: 'Nein',
  remedy: (number, count, label) => `Abhilfe ${number} von ${count}: ${label}`,
  pair: (first, second) => `${first} gegen ${second}`,
  earth: 'Erde',
  details: {
    measures: (what) => `misst ${what}`,
    rated: (volts) => `bemessen für ${volts}`,
    category: (category) => `Messkategorie ${category}`,
    range: (low, high) => `Messbereich ${low} bis ${high}`,
    size: (size) => `Größe ${size}`,
    torque: (torque) => `Drehmoment ${torque}`,
    calibration: 'Kalibrierung gültig',
    number: (number) => `Nummer: ${number}`,
    quantity: (quantity) => `Anzahl: ${quantity}`,
    glove: (glove) => `Klasse ${glove}`
  },
  measured: {
    voltage: 'Spannung',
    pressure: 'Druck',
    speed: 'Drehzahl',
    temperature: 'Temperatur',
    current: 'Strom'
  }
}
