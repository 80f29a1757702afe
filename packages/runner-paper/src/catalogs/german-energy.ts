import type { Catalog } from '../catalog.js'
import { duration } from '../text/duration.js'
import { germanSheetPhrases } from './german-sheet-phrases.js'

/** German wording of stored energies. */
export const germanEnergy: Catalog['energy'] = {
  sheet: 'Berechnungsblatt der gespeicherten Energien',
  notForWork: 'Rechenwerte, keine Messwerte: Energiefreiheit an der Maschine feststellen',
  cautions: [
    'Jeder Wert folgt aus den Angaben des Verfahrens und der genannten Formel, jeweils am ungünstigsten Ende der Toleranz.',
    'Kein Rechenwert ersetzt eine Messung. Die Regeln des Betriebs, die örtlichen Vorschriften und fachkundige Personen gehen vor.',
    'Was nicht angegeben ist, ist als fehlend genannt. Was stattdessen als üblich angenommen ist, ist so gekennzeichnet. Formeln, Quellen und Anmerkungen dazu stehen in Englisch.'
  ],
  colon: ': ',
  overview: 'Auf einen Blick',
  remarks: 'Was anders als angegeben angenommen ist',
  heads: {
    source: 'Quelle',
    most: 'Energie, höchstens',
    felt: 'Vergleich und Gefährlichkeit',
    wait: 'Wartezeit und ihr Grund',
    parameter: 'Parameter',
    value: 'Wert',
    symbol: 'Zeichen',
    input: 'Was eingeht',
    used: 'Verwendet',
    low: 'Von',
    high: 'Bis'
  },
  whatIf: (before) => `angenommen statt ${before}`,
  noParameters: 'Kein Parameter ist angegeben.',
  nothingToWait: 'keine Wartezeit verlangt',
  source: (source) => `Quelle: ${source}`,
  note: (note) => `Anmerkung: ${note}`,
  mind: 'Zu beachten',
  couldBeAdded: 'Anzugeben oder noch einmal anzusehen',
  falls: 'Wie die gespeicherten Energien abfallen',
  magnitudes: { trivial: 'gering', dangerous: 'gefährlich', 'very-dangerous': 'sehr gefährlich' },
  of: { whole: '', rest: ' des verbleibenden Gases' },
  most: (joules) => `höchstens ${joules}`,
  felt: (felt, of) => `, ${felt}${of}`,
  from: (joules) => ` (ab ${joules})`,
  unknown: 'Energie nicht berechnet: kein Zeichen dafür, dass sie klein ist',
  besides: (grounds) => `; ${grounds.join(', ')}`,
  ground: {
    written: (seconds) => `im Verfahren ${duration(seconds)}`,
    label: (seconds) => `Schild ${duration(seconds)}`,
    computed: (seconds) => `berechnet ${duration(seconds)}`
  },
  curve: {
    key: ': dick der langsamste, punktiert der schnellste Verlauf',
    alternate: (source, level, start, description, waits) =>
      `Kurve: ${level} von ${source} über der Zeit, von höchstens ${start}. ${description}${waits}`,
    waits: (grounds) => (grounds.length === 0 ? '' : ` Auch eingezeichnet: ${grounds.join(', ')}.`)
  },
  phrases: [
    ['less than the fall of 1 g from 1 m', 'weniger als der Fall von 1 g aus 1 m'],
    ['as the fall of {1} from 1 m', 'wie der Fall von {1} aus 1 m'],
    ['The written wait of {1} is too short.', 'Die Wartezeit von {1} im Verfahren ist zu kurz.'],
    [
      'The label asks for {1}, and the worst case of what is declared takes {2}.',
      'Das Schild verlangt {1}, und der ungünstigste Fall der Angaben dauert {2}.'
    ],
    [
      'A capacitor built to {1} may stand at {2} V when its rated discharge time is over, which is still above {3} V: that time is no proof.',
      'Ein Kondensator nach {1} darf nach Ablauf seiner Bemessungs-Entladezeit noch {2} V haben, mehr als {3} V: diese Zeit ist kein Nachweis.'
    ],
    ['{1} or {2}', '{1} oder {2}'],
    [
      'At its safe level it still holds {1}: short it before anything touches its terminals.',
      'Auch auf dem sicheren Wert hält er noch {1}: kurzschließen, bevor etwas seine Anschlüsse berührt.'
    ],
    [
      'When the oil is drained the gas still holds {1}, more than the oil gave up.',
      'Ist das Öl abgelassen, hält das Gas noch {1}, mehr als das Öl abgegeben hat.'
    ],
    ['When the oil is drained the gas still holds {1}.', 'Ist das Öl abgelassen, hält das Gas noch {1}.'],
    [
      'Touch threshold: {1} touched for up to {2} burns from {3} ({4}).',
      'Verbrennungsschwelle: {1}, bis zu {2} berührt, verbrennt ab {3} ({4}).'
    ],
    [
      'The safe level of {1} °C is above the touch threshold: {2} touched for up to {3} burns from {4} ({5}).',
      'Der sichere Wert von {1} °C liegt über der Verbrennungsschwelle: {2}, bis zu {3} berührt, verbrennt ab {4} ({5}).'
    ],
    ['bare metal', 'blankes Metall'],
    ['coated metal', 'beschichtetes Metall'],
    ['ceramic, glass or stone', 'Keramik, Glas oder Stein'],
    ['plastic', 'Kunststoff'],
    ['wood', 'Holz'],
    ['worst case', 'ungünstigster Fall'],
    ['worst case {1}', 'ungünstigster Fall {1}'],
    ['label', 'Schild'],
    ['label {1}', 'Schild {1}'],
    ['written', 'Verfahren'],
    ['written {1}', 'Verfahren {1}'],
    ['safe {1}', 'sicher {1}'],
    ['time, {1}', 'Zeit, {1}'],
    ['Voltage', 'Spannung'],
    ['Voltage, {1}', 'Spannung, {1}'],
    ['Current', 'Strom'],
    ['Current, {1}', 'Strom, {1}'],
    ['Speed', 'Drehzahl'],
    ['Speed, {1}', 'Drehzahl, {1}'],
    ['Temperature', 'Temperatur'],
    ['Temperature, {1}', 'Temperatur, {1}'],
    ['Pressure above ambient', 'Überdruck'],
    ['Pressure above ambient, {1}', 'Überdruck, {1}'],
    ['In the worst case it takes {1} to fall to {2}.', 'Im ungünstigsten Fall dauert es {1}, bis {2} erreicht sind.'],
    ...germanSheetPhrases
  ]
}
