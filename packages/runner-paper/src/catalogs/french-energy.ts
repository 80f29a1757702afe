import type { Catalog } from '../catalog.js'
import { duration } from '../text/duration.js'
import { frenchSheetPhrases } from './french-sheet-phrases.js'

/** French wording of stored energies. */
export const frenchEnergy: Catalog['energy'] = {
  sheet: 'Feuille de calcul des énergies accumulées',
  notForWork: "Des calculs, pas des relevés\u00A0: vérifier l'absence d'énergie sur la machine",
  cautions: [
    'Chaque valeur découle de ce que la procédure déclare et de la formule citée, au bout le plus défavorable de chaque tolérance.',
    "Aucune valeur calculée ne remplace un relevé. Les règles de l'usine, la réglementation locale et les personnes qualifiées passent avant.",
    "Ce qui n'est pas déclaré est cité comme manquant. Ce qui est pris comme usuel à la place est marqué ainsi. Les formules, leurs sources et leurs notes sont en anglais."
  ],
  colon: '\u00A0: ',
  overview: "En un coup d'œil",
  remarks: 'Ce qui est pris autrement que déclaré',
  heads: {
    source: 'Source',
    most: 'Énergie, au plus',
    felt: 'Comparaison et danger',
    wait: 'Attente, et sur quoi elle repose',
    parameter: 'Paramètre',
    value: 'Valeur',
    symbol: 'Symbole',
    input: 'Donnée',
    used: 'Utilisé',
    low: 'De',
    high: 'À'
  },
  whatIf: (before) => `supposé, au lieu de ${before}`,
  noParameters: "Aucun paramètre n'est déclaré.",
  nothingToWait: "aucune attente n'est demandée",
  source: (source) => `Source\u00A0: ${source}`,
  note: (note) => `Note\u00A0: ${note}`,
  mind: 'À savoir',
  couldBeAdded: 'À déclarer ou à revoir',
  falls: 'Comment baissent les énergies accumulées',
  magnitudes: { trivial: 'faible', dangerous: 'dangereuse', 'very-dangerous': 'très dangereuse' },
  of: { whole: '', rest: ' du gaz qui reste' },
  most: (joules) => `au plus ${joules}`,
  felt: (felt, of) => `, ${felt}${of}`,
  from: (joules) => ` (à partir de ${joules})`,
  unknown: "énergie non calculée\u00A0: rien n'indique qu'elle soit petite",
  besides: (grounds) => `; ${grounds.join(', ')}`,
  ground: {
    written: (seconds) => `procédure ${duration(seconds)}`,
    label: (seconds) => `plaque ${duration(seconds)}`,
    computed: (seconds) => `calcul ${duration(seconds)}`
  },
  curve: {
    key: '\u00A0: trait épais au plus lent, pointillé au plus rapide',
    alternate: (source, level, start, description, waits) =>
      `Courbe\u00A0: ${level.toLowerCase()} de ${source} dans le temps, à partir de ${start} au plus. ${description}${waits}`,
    waits: (grounds) => (grounds.length === 0 ? '' : ` Aussi marqué\u00A0: ${grounds.join(', ')}.`)
  },
  phrases: [
    ['less than the fall of 1 g from 1 m', "moins que la chute de 1 g d'une hauteur de 1 m"],
    ['as the fall of {1} from 1 m', "comme la chute de {1} d'une hauteur de 1 m"],
    ['The written wait of {1} is too short.', "L'attente de {1} de la procédure est trop courte."],
    [
      'The label asks for {1}, and the worst case of what is declared takes {2}.',
      'La plaque demande {1}, et le cas le plus défavorable de ce qui est déclaré prend {2}.'
    ],
    [
      'A capacitor built to {1} may stand at {2} V when its rated discharge time is over, which is still above {3} V: that time is no proof.',
      "Un condensateur selon {1} peut garder {2} V à la fin de son temps de décharge assigné, plus que {3} V\u00A0: ce temps n'est pas une preuve."
    ],
    ['{1} or {2}', '{1} ou {2}'],
    [
      'At its safe level it still holds {1}: short it before anything touches its terminals.',
      'À son niveau sûr il garde encore {1}\u00A0: le court-circuiter avant que rien ne touche ses bornes.'
    ],
    [
      'When the oil is drained the gas still holds {1}, more than the oil gave up.',
      "L'huile vidée, le gaz garde encore {1}, plus que ce que l'huile a cédé."
    ],
    ['When the oil is drained the gas still holds {1}.', "L'huile vidée, le gaz garde encore {1}."],
    [
      'Touch threshold: {1} touched for up to {2} burns from {3} ({4}).',
      "Seuil de brûlure\u00A0: {1}, touché jusqu'à {2}, brûle à partir de {3} ({4})."
    ],
    [
      'The safe level of {1} °C is above the touch threshold: {2} touched for up to {3} burns from {4} ({5}).',
      "Le niveau sûr de {1} °C dépasse le seuil de brûlure\u00A0: {2}, touché jusqu'à {3}, brûle à partir de {4} ({5})."
    ],
    ['bare metal', 'métal nu'],
    ['coated metal', 'métal revêtu'],
    ['ceramic, glass or stone', 'céramique, verre ou pierre'],
    ['plastic', 'plastique'],
    ['wood', 'bois'],
    ['worst case', 'pire cas'],
    ['worst case {1}', 'pire cas {1}'],
    ['label', 'plaque'],
    ['label {1}', 'plaque {1}'],
    ['written', 'procédure'],
    ['written {1}', 'procédure {1}'],
    ['safe {1}', 'sûr {1}'],
    ['time, {1}', 'temps, {1}'],
    ['Voltage', 'Tension'],
    ['Voltage, {1}', 'Tension, {1}'],
    ['Current', 'Courant'],
    ['Current, {1}', 'Courant, {1}'],
    ['Speed', 'Vitesse'],
    ['Speed, {1}', 'Vitesse, {1}'],
    ['Temperature', 'Température'],
    ['Temperature, {1}', 'Température, {1}'],
    ['Pressure above ambient', 'Surpression'],
    ['Pressure above ambient, {1}', 'Surpression, {1}'],
    ['In the worst case it takes {1} to fall to {2}.', 'Au pire, il faut {1} pour descendre à {2}.'],
    ...frenchSheetPhrases
  ]
}
