import type { Catalog } from '../catalog.js'
import { duration } from '../text/duration.js'
import { spanishSheetPhrases } from './spanish-sheet-phrases.js'

/** Spanish wording of stored energies. */
export const spanishEnergy: Catalog['energy'] = {
  sheet: 'Hoja de cálculo de las energías acumuladas',
  notForWork: 'Son cálculos, no lecturas: verificar en la máquina la ausencia de energía',
  cautions: [
    'Cada cifra se deduce de lo que declara el procedimiento y de la fórmula indicada, en el extremo más desfavorable de cada tolerancia.',
    'Ninguna cifra sustituye a una lectura. Las normas de la planta, los reglamentos locales y las personas cualificadas van primero.',
    'Lo que no se declara figura como ausente. Lo que se toma como usual en su lugar está marcado así. Las fórmulas, sus fuentes y sus notas están en inglés.'
  ],
  colon: ': ',
  overview: 'De un vistazo',
  remarks: 'Lo que se toma distinto de lo declarado',
  heads: {
    source: 'Fuente',
    most: 'Energía, como máximo',
    felt: 'Comparación y peligro',
    wait: 'Espera y en qué se basa',
    parameter: 'Parámetro',
    value: 'Valor',
    symbol: 'Símbolo',
    input: 'Dato de partida',
    used: 'Usado',
    low: 'Desde',
    high: 'Hasta'
  },
  whatIf: (before) => `supuesto, en lugar de ${before}`,
  noParameters: 'No se declara ningún parámetro.',
  nothingToWait: 'no se pide ninguna espera',
  source: (source) => `Fuente: ${source}`,
  note: (note) => `Nota: ${note}`,
  mind: 'A tener en cuenta',
  couldBeAdded: 'Por declarar o por revisar',
  falls: 'Cómo bajan las energías acumuladas',
  magnitudes: { trivial: 'leve', dangerous: 'peligrosa', 'very-dangerous': 'muy peligrosa' },
  of: { whole: '', rest: ' del gas que queda' },
  most: (joules) => `como máximo ${joules}`,
  felt: (felt, of) => `, ${felt}${of}`,
  from: (joules) => ` (desde ${joules})`,
  unknown: 'energía no calculada: eso no indica que sea pequeña',
  besides: (grounds) => `; ${grounds.join(', ')}`,
  ground: {
    written: (seconds) => `procedimiento ${duration(seconds)}`,
    label: (seconds) => `placa ${duration(seconds)}`,
    computed: (seconds) => `cálculo ${duration(seconds)}`
  },
  curve: {
    key: ': trazo grueso, lo más lento; de puntos, lo más rápido',
    alternate: (source, level, start, description, waits) =>
      `Curva: ${level.toLowerCase()} de ${source} en el tiempo, desde ${start} como máximo. ${description}${waits}`,
    waits: (grounds) => (grounds.length === 0 ? '' : ` También se marca: ${grounds.join(', ')}.`)
  },
  phrases: [
    ['less than the fall of 1 g from 1 m', 'menos que la caída de 1 g desde 1 m'],
    ['as the fall of {1} from 1 m', 'como la caída de {1} desde 1 m'],
    ['The written wait of {1} is too short.', 'La espera de {1} del procedimiento es demasiado corta.'],
    [
      'The label asks for {1}, and the worst case of what is declared takes {2}.',
      'La placa pide {1}, y el caso más desfavorable de lo declarado tarda {2}.'
    ],
    [
      'A capacitor built to {1} may stand at {2} V when its rated discharge time is over, which is still above {3} V: that time is no proof.',
      'Un condensador según {1} puede conservar {2} V al acabar su tiempo de descarga asignado, más de {3} V: ese tiempo no demuestra nada.'
    ],
    ['{1} or {2}', '{1} o {2}'],
    [
      'At its safe level it still holds {1}: short it before anything touches its terminals.',
      'En su nivel seguro aún guarda {1}: ponerlo en cortocircuito antes de que algo toque sus bornes.'
    ],
    [
      'When the oil is drained the gas still holds {1}, more than the oil gave up.',
      'Vaciado el aceite, el gas aún guarda {1}, más de lo que cedió el aceite.'
    ],
    ['When the oil is drained the gas still holds {1}.', 'Vaciado el aceite, el gas aún guarda {1}.'],
    [
      'Touch threshold: {1} touched for up to {2} burns from {3} ({4}).',
      'Umbral de quemadura: {1}, tocado hasta {2}, quema desde {3} ({4}).'
    ],
    [
      'The safe level of {1} °C is above the touch threshold: {2} touched for up to {3} burns from {4} ({5}).',
      'El nivel seguro de {1} °C supera el umbral de quemadura: {2}, tocado hasta {3}, quema desde {4} ({5}).'
    ],
    ['bare metal', 'metal desnudo'],
    ['coated metal', 'metal recubierto'],
    ['ceramic, glass or stone', 'cerámica, vidrio o piedra'],
    ['plastic', 'plástico'],
    ['wood', 'madera'],
    ['worst case', 'caso peor'],
    ['worst case {1}', 'caso peor {1}'],
    ['label', 'placa'],
    ['label {1}', 'placa {1}'],
    ['written', 'procedimiento'],
    ['written {1}', 'procedimiento {1}'],
    ['safe {1}', 'seguro {1}'],
    ['time, {1}', 'tiempo, {1}'],
    ['Voltage', 'Tensión'],
    ['Voltage, {1}', 'Tensión, {1}'],
    ['Current', 'Corriente'],
    ['Current, {1}', 'Corriente, {1}'],
    ['Speed', 'Velocidad'],
    ['Speed, {1}', 'Velocidad, {1}'],
    ['Temperature', 'Temperatura'],
    ['Temperature, {1}', 'Temperatura, {1}'],
    ['Pressure above ambient', 'Sobrepresión'],
    ['Pressure above ambient, {1}', 'Sobrepresión, {1}'],
    ['In the worst case it takes {1} to fall to {2}.', 'En el peor caso tarda {1} en bajar a {2}.'],
    ...spanishSheetPhrases
  ]
}
