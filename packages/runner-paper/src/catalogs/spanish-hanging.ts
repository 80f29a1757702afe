import type { Catalog } from '../catalog.js'

/** Spanish wording of placard, tags and labels. */
export const spanishHanging: Catalog['hanging'] = {
  placard: {
    kicker: 'Cartel de control de energías',
    notInstead:
      'Es un resumen, no la instrucción de trabajo: trabajar con la lista que lleve la misma revisión y huella.',
    cautions: [
      'Las normas de la planta, los reglamentos locales y las personas cualificadas van primero.',
      'Cada persona cuelga su propio candado. Bloqueado no es sin energía: verificarlo en la máquina.',
      'Si algo no coincide con lo impreso, parar, dejar los candados puestos y preguntar al coordinador.'
    ],
    sources: 'Fuentes de energía',
    order: 'Orden',
    isolateAt: 'Separar en',
    call: 'A quién llamar',
    callName: 'Nombre',
    callNumber: 'Teléfono',
    review: 'Colgado por, fecha',
    leftOut: (what) => `Omitido por falta de espacio, ver la lista: ${what}.`,
    parts: {
      scope: 'alcance',
      magnitudes: 'energías acumuladas',
      restraints: 'retenciones',
      order: 'orden de los pasos'
    }
  },
  tag: {
    legends: ['No arrancar', 'No abrir', 'No cerrar', 'No conectar', 'No accionar'],
    owner: 'Candado y etiqueta de (nombre)',
    department: 'Departamento, teléfono',
    hung: 'Colgado (fecha, hora)',
    expected: 'Retirada prevista',
    lock: 'Candado n.º',
    onlyOwner: 'Solo la persona aquí nombrada retira esta etiqueta y este candado.',
    holds: 'Qué corta este dispositivo',
    safe: 'Posición segura',
    tagAlone: 'Una etiqueta avisa y por sí sola no retiene nada: colgarla con candado, firme, y no eludirla nunca.',
    fed: (names) => `alimenta ${names}`,
    front: 'anverso',
    back: 'reverso',
    cut: 'Cortar por las líneas finas, doblar por la línea de trazos, perforar en el anillo.'
  },
  label: {
    device: 'Dispositivo de separación',
    isolates: 'Separa',
    safe: 'Posición segura',
    stored: 'queda energía acumulada, disiparla y verificar su ausencia',
    proof: 'Bloqueado no es sin energía.',
    procedure: (procedure, revision) => `Procedimiento ${procedure}, revisión ${revision}`
  },
  sideBySide: {
    binding: (language) => `Se anota una sola vez. El texto emitido es el que está en ${language}.`
  }
}
