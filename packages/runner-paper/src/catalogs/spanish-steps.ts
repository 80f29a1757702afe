import type { Catalog } from '../catalog.js'
import { duration } from '../text/duration.js'

/** Spanish wording on the steps, at stops, of ways on and of limits. */
export const spanishSteps: Pick<Catalog, 'steps' | 'stops' | 'ways' | 'limits'> = {
  steps: {
    gate: 'punto de parada',
    role: (name) => `Lo hace: ${name}`,
    wear: (names) => `Llevar puesto: ${names}`,
    using: (names) => `Con: ${names}`,
    minutes: (minutes) => `Normalmente ${minutes} min`,
    again: 'Puede repetirse: una fila para cada vez. Más de tres veces: tomar una hoja nueva y anotarlo.',
    absent: (names) => `No existe en esta variante: ${names}.`,
    retake: 'Fuera de límites: medir otra vez y anotarlo en la casilla siguiente.',
    retakeThenWay: (way) => `Fuera de límites también en la última casilla: seguir como se indica en «${way}».`,
    retakeThenStop: 'Fuera de límites también en la última casilla: no seguir, y preguntar al coordinador.',
    backFrom: (steps) => `También se repite si se vuelve aquí desde ${steps}.`,
    onlyFrom: (steps) => `Solo desde ${steps}.`,
    gather:
      'Todo lo que figura en «Reunir antes del primer candado», en las primeras páginas, está marcado y en buen estado.',
    lockPoint: (safe) => `llevado a la posición segura (${safe}); candado y etiqueta puestos`,
    isolatePoint: (safe) => `llevado a la posición segura (${safe}); aún sin candado`,
    unlockPoint: 'candado y etiqueta propios retirados',
    energizePoint: 'conectado de nuevo',
    lockNumber: 'Candado n.º',
    othersLock: 'Otras personas bajo esta consignación: también sus propios candados, ver «Personas en este trabajo».',
    othersUnlock: 'Las demás personas retiran sus propios candados: ver «Personas en este trabajo».',
    tried: 'probado: nada arrancó, y el mando ha vuelto a su posición de parada',
    letOut: (names) => `${names}: disipada como se indica`,
    byWhom: 'Nombre',
    restraintOn: 'está colocado',
    restraintOff: 'está retirado',
    lampDark: 'apagada, como debe estar',
    lampLit: 'encendida, como debe estar',
    ifLive:
      'Una lectura igual o superior al límite significa CON ENERGÍA: manténgase apartado, deje todos los candados, no continúe. Anótela con el motivo y la lectura siguiente en «Notas».',
    lampNoProof: 'Una lámpara no demuestra nada: la verificación viene después.',
    testerBefore: 'El detector funciona, probado antes de la verificación en',
    testerAfter: 'El detector funciona, probado después de la verificación en',
    known: 'una fuente en tensión conocida',
    trial: (name) => `${name}: no se mueve al probarlo`,
    told: 'avisado',
    acknowledge: 'leído y entendido',
    wait: (seconds) => `Esperar al menos ${duration(seconds)}`,
    started: 'Empezado',
    ends: 'Acaba, no antes',
    timer: (seconds) => `Los pasos siguientes deben hacerse en menos de ${duration(seconds)}.`,
    deadline: 'Hecho antes de',
    powerOn: (names) => `EN TENSIÓN. En ensayo: ${names}.`,
    near: (names) => `Cerca de: ${names}.`,
    apart: (names) => `También conectado, fuera del alcance: ${names}.`,
    why: (why) => `Por qué: ${why}`,
    permit: (steps) => `Solo con la firma dada en ${steps}.`,
    leaves: (names) => `Sigue conectado durante este trabajo: ${names}.`,
    identified: (axis, steps) => `La variante (${axis}) se identificó en ${steps}.`,
    knownBefore: 'Si ya se identificó antes, pasar de largo este paso.',
    serial: 'Instrumento n.º',
    due: 'Calibrado hasta',
    readFrom: (from) => `Leer en ${from}, sin tocar.`,
    signAs: (role) => `Firma: ${role}`,
    tell: (who) => `Avisar a: ${who}`,
    left: 'Se deja en este estado',
    finish:
      'De nuevo en servicio: todos los candados y retenciones fuera, inspeccionado, todas las personas apartadas.',
    picture: (alternate) => `Imagen: ${alternate}`
  },
  stops: {
    ends: 'El trabajo acaba aquí.',
    stayOn: (points) => `Los candados y etiquetas de ${points} se quedan puestos. El equipo sigue fuera de servicio.`,
    mayHang: (points) =>
      `Que haya candados en ${points} depende del camino que llevó aquí: si los hay, se quedan puestos. Donde no haya ninguno, bloquear el dispositivo antes de dejar el equipo, o entregar el equipo a la persona responsable según las normas de la planta.`,
    notLocked: (points) =>
      `No hay candado en ${points}: bloquear antes de dejar el equipo, o entregar el equipo a la persona responsable según las normas de la planta.`,
    nothingLocked: (points, canBeOn) =>
      `Aquí no hay nada bloqueado${canBeOn ? ', y el equipo puede estar conectado' : ''}: bloquear ${points} antes de dejar el equipo, o entregarlo a la persona responsable según las normas de la planta.`,
    noDevice: 'Entregar el equipo a la persona responsable según las normas de la planta.',
    held: (restraints) => `Se queda puesto: ${restraints}.`,
    maybeHeld: (restraints) => `Se queda puesto donde se haya colocado: ${restraints}.`
  },
  ways: {
    goOn: (number) => `Seguir en el paso ${number}`,
    goBack: (number) => `Volver al paso ${number}`,
    inside: 'Dentro de los límites',
    outside: 'Sigue fuera de los límites',
    inTime: 'Hecho a tiempo',
    late: 'El plazo acabó antes de hacerlo',
    otherSheet: 'ALTO. Esta hoja no sirve: tomar la hoja de esa variante.',
    generation: (name, tell) => (tell === '' ? name : `${name} (${tell})`)
  },
  limits: {
    between: (min, max) => `de ${min} a ${max}`,
    atLeast: (min) => `al menos ${min}`,
    atMost: (max) => `como máximo ${max}`,
    below: (below) => `menos de ${below}`,
    zero: (zero) => `${zero}, no más`,
    none: 'anotar lo que marque'
  }
}
