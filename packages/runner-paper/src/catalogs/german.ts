import type { Catalog } from '../catalog.js'
import { duration } from '../text/duration.js'
import { germanEnergy } from './german-energy.js'
import { germanForm } from './german-form.js'
import { germanHanging } from './german-hanging.js'
import { germanKinds } from './german-kinds.js'
import { germanMade } from './german-made.js'
import { germanSteps } from './german-steps.js'
import { momentIn, numbersOf } from './numbers-of.js'

/**
 * The fixed wording in German. Terms after EN 50110-1 (DIN VDE 0105-100), ISO 12100 and ISO 14118 in their German
 * versions and signal words after ISO 3864-2, all from memory; nobody of the trade has reviewed this translation yet.
 */
export const german: Catalog = {
  language: 'de',
  ...numbersOf('de-DE'),
  moment: momentIn('de-DE', (day, month, year, time) => `${day}. ${month} ${year}, ${time}`),
  sheet: 'Freischalt- und Arbeitsblatt',
  draft: 'ENTWURF',
  notIssued: 'nicht zur Verwendung ausgegeben',
  issued: (by, at) => `Ausgegeben von ${by}, ${at}`,
  printed: (at) => `Gedruckt ${at}`,
  forGeneration: (names) => `nur für ${names}`,
  page: (number, count) => `Seite ${number} von ${count}`,
  running: {
    revision: (procedure, revision) => `${procedure}, Revision ${revision}`,
    digest: (procedure, revision, digest) => `${procedure} Revision ${revision}, Prüfsumme ${digest}`
  },
  none: 'keine',
  continued: 'Fortsetzung',
  opens: { again: 'noch einmal', continued: 'Fortsetzung' },
  ...germanKinds,
  signalWords: { danger: 'GEFAHR', warning: 'WARNUNG', caution: 'VORSICHT', notice: 'HINWEIS' },
  energy: germanEnergy,
  form: germanForm,
  made: germanMade,
  hanging: germanHanging,
  orders: {
    general: 'sichern, dann gespeicherte Energie abbauen (29 CFR 1910.147(d))',
    electrical: 'gespeicherte Energie abbauen, dann sichern (29 CFR 1910.333(b)(2))'
  },
  facts: {
    equipment: 'Anlage',
    place: 'Ort',
    scope: 'Geltungsbereich',
    procedure: 'Verfahren',
    revision: 'Revision',
    generation: 'Ausführung',
    digest: 'Prüfsumme (SHA-256)',
    order: 'Reihenfolge',
    issue: 'Ausgabestand',
    noStartControl: 'Kein Startbefehl zum Versuchen',
    names: 'Schrittnamen',
    namesTell: 'In kleiner Schrift hinter jedem Titel: wonach „lockwright enter“ fragt.'
  },
  parts: {
    sources: 'Energiequellen',
    leftOn: 'Bleibt während der Arbeit eingeschaltet',
    points: 'Trenneinrichtungen',
    restraints: 'Rückhaltungen',
    things: 'Vor dem ersten Schloss bereitlegen',
    tools: 'Werkzeuge und Messgeräte',
    spares: 'Teile',
    wear: 'Persönliche Schutzausrüstung',
    people: 'Personen bei dieser Arbeit',
    waivers: 'Erlassene Pflichten',
    cautions: 'Vor allem anderen',
    legend: 'Formen auf diesem Blatt',
    signatures: 'Unterschriften',
    deviations: 'Abweichungen',
    notes: 'Notizen',
    proof: 'Was geprüft wurde'
  },
  heads: {
    source: 'Quelle und Größe',
    isolate: 'Getrennt an (sichere Stellung)',
    release: 'Abgebaut oder gehalten; Wartezeit',
    verify: 'Energiefrei festgestellt',
    point: 'Gerät',
    where: 'Ort',
    safe: 'Sichere Stellung',
    lock: 'Schloss Nr.',
    name: 'Name',
    restraint: 'Rückhaltung',
    holds: 'Hält',
    on: 'Angebracht',
    off: 'Abgenommen',
    why: 'Warum',
    permit: 'Erlaubt durch',
    qualification: 'Qualifikation',
    roleAndQualification: 'Rolle, Qualifikation',
    nameAndTime: 'Name, Uhrzeit',
    initials: 'Kürzel',
    locksHung: 'Schlösser gehängt, Nummern',
    locksOff: 'Schlösser ab, Uhrzeit',
    time: 'Uhrzeit',
    obligation: 'Pflicht',
    by: 'Von',
    step: 'Schritt',
    meaning: 'Bedeutung der Unterschrift',
    signature: 'Unterschrift',
    date: 'Datum, Uhrzeit',
    deviation: 'Was anders gemacht wurde und warum',
    qualified: 'Fachkundige Person, Unterschrift',
    note: 'Notiz'
  },
  tells: {
    fedBy: (names) => `gespeist von ${names}`,
    unfed: (why) => `nichts speist sie: ${why}`,
    guarded: (how) => `geschützt: ${how}`,
    rebuilds: 'ihre Energie kann von selbst wiederkommen',
    conductors: (names) => `Leiter ${names}`,
    noDevice: 'keine Trenneinrichtung',
    letOut: (steps) => `abgebaut bei ${steps}`,
    heldBy: (names) => `gehalten durch ${names}`,
    storesNothing: 'speichert nichts',
    noRelease: 'auf diesem Blatt nicht abgebaut',
    wait: (seconds) => `${duration(seconds)} warten`,
    because: {
      written: 'wie im Verfahren',
      label: 'wie auf dem Schild',
      computed: 'wie berechnet: langsamster Fall bis zum sicheren Wert'
    },
    verified: (steps) => `bei ${steps}`,
    withWhat: (names) => `mit ${names}`,
    trial: 'durch den Versuch, es zu bewegen',
    staysOn: 'bleibt während der Arbeit eingeschaltet',
    notVerified: 'auf diesem Blatt nicht festgestellt',
    steps: (numbers) => `Schritt ${numbers.join(', ')}`,
    step: (number) => `Schritt ${number}`,
    normalOff: 'normalerweise aus',
    needsPower: (why) => `kommt nur mit wiederkehrender Energie heraus: ${why}`,
    rails: (names) => `nur ${names}`
  },
  ...germanSteps,
  cautions: [
    'Die Regeln des Betriebs, die örtlichen Vorschriften und die fachkundigen Personen vor Ort gehen vor. Dieses Blatt ersetzt nichts davon.',
    'Jede Person, die unter dieser Sicherung arbeitet, hängt zuerst ein eigenes Schloss und nimmt es selbst wieder ab.',
    'Weicht etwas von dem ab, was hier gedruckt ist: anhalten, Schlösser hängen lassen, den Koordinator fragen.',
    'Das Verfahren wurde auf die Pflichten geprüft, die auf der letzten Seite stehen. Das heißt nicht, dass die Arbeit sicher ist.'
  ],
  legend: {
    gate: 'Ein Haltepunkt: getan, wiederholt, oder die Arbeit endet. Nie übersprungen, nie geändert.',
    step: 'Ein gewöhnlicher Schritt.',
    box: 'Ankreuzen, wenn getan.',
    circle: 'Das Zutreffende ankreuzen.',
    rail: 'Nur für die Ausführung, die daneben steht.',
    way: 'Weiter mit dem genannten Schritt.'
  },
  closing: {
    deviation: 'Ein Haltepunkt wird nie anders gemacht: er wird getan, wiederholt, oder die Arbeit endet.',
    claim:
      'Dies wurde am Verfahren geprüft, wie es geschrieben steht. Es sagt nicht, dass die Arbeit sicher ist: die Regeln des Betriebs, die örtlichen Vorschriften und fachkundige Personen entscheiden.',
    completed: 'Blatt vollständig',
    entered: 'In die Aufzeichnung übertragen',
    proof: (procedure, revision, digest) => `Verfahren ${procedure}, Revision ${revision}, Prüfsumme ${digest}.`,
    sizes: (states, configurations) =>
      `Untersucht: ${states} Zustände der Maschine, ${configurations} erreichbare Stellungen von Maschine und Energien.`,
    proven: 'Pflichten, die in jeder erreichbaren Stellung erfüllt sind',
    waived: 'Pflichten, die erlassen wurden',
    notArising: 'Pflichten, die in diesem Verfahren nicht vorkommen',
    noReport:
      'Nur ein Verfahren, dessen Pflichten alle erfüllt oder wie gezeigt erlassen sind, kann gedruckt werden. lockwright check nennt die Liste.',
    missing: (codes) =>
      `Die Schriften dieses Blatts können ${codes} nicht zeigen; dafür steht ein Ersatzzeichen. Dort das Verfahren selbst lesen.`
  }
}
