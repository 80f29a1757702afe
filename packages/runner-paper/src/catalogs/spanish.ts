import type { Catalog } from '../catalog.js'
import { duration } from '../text/duration.js'
import { momentIn, numbersOf } from './numbers-of.js'
import { spanishEnergy } from './spanish-energy.js'
import { spanishForm } from './spanish-form.js'
import { spanishHanging } from './spanish-hanging.js'
import { spanishKinds } from './spanish-kinds.js'
import { spanishMade } from './spanish-made.js'
import { spanishSteps } from './spanish-steps.js'

const { plural, ...numbers } = numbersOf('es-ES')

/**
 * The fixed wording in Spanish. Terms after the Spanish EN ISO 12100, EN ISO 14118, EN 50110-1 and Real Decreto
 * 614/2001, signal words after ISO 3864-2, all from memory; nobody of the trade has reviewed this translation yet.
 */
export const spanish: Catalog = {
  language: 'es',
  ...numbers,
  plural,
  moment: momentIn('es-ES', (day, month, year, time) => `${day} de ${month} de ${year}, ${time}`),
  sheet: 'Hoja de consignación y trabajo',
  draft: 'BORRADOR',
  notIssued: 'no emitida para su uso',
  issued: (by, at) => `Emitida por ${by}, ${at}`,
  printed: (at) => `Impresa ${at}`,
  forGeneration: (names) => `solo para ${names}`,
  page: (number, count) => `Página ${number} de ${count}`,
  running: {
    revision: (procedure, revision) => `${procedure}, revisión ${revision}`,
    digest: (procedure, revision, digest) => `${procedure} revisión ${revision}, huella ${digest}`
  },
  none: 'ninguno',
  continued: 'continuación',
  opens: { again: 'otra vez', continued: 'continuación' },
  ...spanishKinds,
  signalWords: { danger: 'PELIGRO', warning: 'ADVERTENCIA', caution: 'PRECAUCIÓN', notice: 'AVISO' },
  energy: spanishEnergy,
  form: spanishForm,
  made: spanishMade,
  hanging: spanishHanging,
  orders: {
    general: 'bloquear y después disipar la energía acumulada (29 CFR 1910.147(d))',
    electrical: 'disipar la energía acumulada y después bloquear (29 CFR 1910.333(b)(2))'
  },
  facts: {
    equipment: 'Equipo',
    place: 'Lugar',
    scope: 'Alcance',
    procedure: 'Procedimiento',
    revision: 'Revisión',
    generation: 'Variante',
    digest: 'Huella (SHA-256)',
    order: 'Orden de trabajo',
    issue: 'Estado de emisión',
    noStartControl: 'Sin mando de arranque que probar',
    names: 'Nombres de pasos',
    namesTell: 'En letra pequeña tras cada título: lo que pide «lockwright enter».'
  },
  parts: {
    sources: 'Fuentes de energía',
    leftOn: 'Sigue conectado durante el trabajo',
    points: 'Dispositivos de separación',
    restraints: 'Retenciones',
    things: 'Reunir antes del primer candado',
    tools: 'Herramientas e instrumentos',
    spares: 'Piezas',
    wear: 'Equipos de protección',
    people: 'Personas en este trabajo',
    waivers: 'Obligaciones dispensadas',
    cautions: 'Antes de nada',
    legend: 'Formas de esta hoja',
    signatures: 'Firmas',
    deviations: 'Desviaciones',
    notes: 'Notas',
    proof: 'Qué se comprobó'
  },
  heads: {
    source: 'Fuente y magnitud',
    isolate: 'Separada en (posición segura)',
    release: 'Disipada o retenida; espera',
    verify: 'Ausencia verificada',
    point: 'Dispositivo',
    where: 'Lugar',
    safe: 'Posición segura',
    lock: 'Número de candado',
    name: 'Nombre',
    restraint: 'Retención',
    holds: 'Retiene',
    on: 'Se coloca',
    off: 'Se retira',
    why: 'Por qué',
    permit: 'Permitido por',
    qualification: 'Cualificación',
    roleAndQualification: 'Función, cualificación',
    nameAndTime: 'Nombre, hora',
    initials: 'Iniciales',
    locksHung: 'Candados puestos, números',
    locksOff: 'Candados fuera, hora',
    time: 'Hora',
    obligation: 'Obligación',
    by: 'Por',
    step: 'Paso',
    meaning: 'Significado de la firma',
    signature: 'Firma',
    date: 'Fecha, hora',
    deviation: 'Qué se hizo de otro modo, y por qué',
    qualified: 'Persona cualificada, firma',
    note: 'Nota'
  },
  tells: {
    fedBy: (names) => `alimentada por ${names}`,
    unfed: (why) => `nada la alimenta: ${why}`,
    guarded: (how) => `protegida: ${how}`,
    rebuilds: 'su energía puede volver por sí sola',
    conductors: (names) => `conductores ${names}`,
    noDevice: 'sin dispositivo de separación',
    letOut: (steps) => `disipada en ${steps}`,
    heldBy: (names) => `retenida por ${names}`,
    storesNothing: 'no acumula nada',
    noRelease: 'no se disipa en esta hoja',
    wait: (seconds) => `esperar ${duration(seconds)}`,
    because: {
      written: 'como dice el procedimiento',
      label: 'como dice la placa',
      computed: 'según cálculo: caso más lento hasta el nivel seguro'
    },
    verified: (steps) => `en ${steps}`,
    withWhat: (names) => `con ${names}`,
    trial: 'probando a moverlo',
    staysOn: 'sigue conectado durante el trabajo',
    notVerified: 'no se verifica en esta hoja',
    steps: (numbers) => `${plural(numbers.length, { one: 'el paso', other: 'los pasos' })} ${numbers.join(', ')}`,
    step: (number) => `paso ${number}`,
    normalOff: 'normalmente desconectado',
    needsPower: (why) => `sale solo con la energía de vuelta: ${why}`,
    rails: (names) => `solo ${names}`
  },
  ...spanishSteps,
  cautions: [
    'Las normas de la planta, los reglamentos locales y las personas cualificadas del lugar van primero. Esta hoja no sustituye nada de eso.',
    'Cada persona que trabaja bajo esta consignación cuelga antes su propio candado y es quien lo retira.',
    'Si algo no coincide con lo impreso aquí, parar, dejar los candados puestos y preguntar al coordinador.',
    'El procedimiento se comprobó respecto de las obligaciones que figuran en la última página. Eso no afirma que el trabajo sea seguro.'
  ],
  legend: {
    gate: 'Un punto de parada: se hace, se repite o el trabajo acaba. Nunca se salta ni se cambia.',
    step: 'Un paso corriente.',
    box: 'Marcar cuando esté hecho.',
    circle: 'Marcar lo que corresponda.',
    rail: 'Solo para la variante que figura al lado.',
    way: 'Seguir en el paso indicado.'
  },
  closing: {
    deviation: 'Un punto de parada nunca se hace de otro modo: se hace, se repite o el trabajo acaba.',
    claim:
      'Esto se comprobó del procedimiento tal como está escrito. No afirma que el trabajo sea seguro: deciden las normas de la planta, los reglamentos locales y las personas cualificadas.',
    completed: 'Hoja completada',
    entered: 'Pasada al registro',
    proof: (procedure, revision, digest) => `Procedimiento ${procedure}, revisión ${revision}, huella ${digest}.`,
    sizes: (states, configurations) =>
      `Explorado: ${states} estados de la máquina, ${configurations} configuraciones alcanzables de máquina y energías.`,
    proven: 'Obligaciones que se cumplen en toda configuración alcanzable',
    waived: 'Obligaciones dispensadas',
    notArising: 'Obligaciones que no se dan en este procedimiento',
    noReport:
      'Solo se puede imprimir un procedimiento cuyas obligaciones se cumplan todas o estén dispensadas como se muestra. lockwright check da la lista.',
    missing: (codes) =>
      `Los tipos de letra de esta hoja no pueden mostrar ${codes}; en su lugar va un signo de sustitución. Leer ahí el propio procedimiento.`
  }
}
