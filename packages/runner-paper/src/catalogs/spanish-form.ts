import type { Catalog } from '../catalog.js'

/** Textos españoles del formulario: número de hoja, recorrido, imágenes. */
export const spanishForm: Catalog['form'] = {
  serial: 'Número de hoja',
  noSerial: 'ninguno: esta hoja no consta en los registros',
  began: 'Trabajo iniciado el (como 2026-03-04)',
  clock: 'Las horas son las de',
  sheet: (serial) => `hoja ${serial}`,
  sheetWithout: 'hoja sin número',
  flow: 'El recorrido',
  flowTell:
    'Una línea por paso, de arriba abajo; las líneas de la derecha llevan adelante, las de la izquierda llevan atrás. Un camino que sale de esta parte del plano nombra su paso.',
  flowOf: (steps) =>
    `Plano del procedimiento: ${steps} pasos; a cada uno le sigue el siguiente salvo que aquí se diga otra cosa.`,
  turn: (from, answer, to) => `Desde ${from}${answer === '' ? '' : `, «${answer}»`}: ${to}.`,
  offSheet: 'otra hoja',
  computed: 'Valores calculados',
  safeLevel: 'Nivel seguro',
  waits: 'Esperas, y en qué se basa cada una',
  notShown: (alternate) => `Imagen no impresa: ${alternate}`
}
