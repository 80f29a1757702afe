import type { Catalog } from '../catalog.js'

/** `y` becomes `e` before the sound of an i. */
const list = (names: readonly string[]): string => {
  const last = names.at(-1) ?? ''
  const and = /^h?i(?!e)/i.test(last) ? 'e' : 'y'
  return names.length < 2 ? last : `${names.slice(0, -1).join(', ')} ${and} ${last}`
}

/** Spanish wording of what the compiler makes in English. */
export const spanishMade: Catalog['made'] = {
  before: {
    notify: 'Avisar:',
    operate: 'Maniobrar:',
    look: 'Mirar:',
    live: 'Ensayo en tensión:',
    shutdown: 'Parar:',
    tryout: 'Intentar arrancar:',
    signoff: 'Firmar:',
    work: 'Trabajo:',
    measure: 'Medir:',
    wait: 'Esperar:',
    inspect: 'Inspeccionar:',
    clear: 'Despejar:',
    stop: 'Parar:'
  },
  bare: {
    notify: 'Avisar a las personas afectadas',
    operate: 'Maniobrar con los mandos normales',
    look: 'Mirar sin tocar',
    shutdown: 'Parar con los mandos normales',
    tryout: 'Accionar el mando de arranque y devolverlo a parada',
    work: 'Trabajo: con las manos',
    measure: 'Medir',
    wait: 'Esperar',
    inspect: 'Inspeccionar: herramientas fuera, resguardos en su sitio',
    clear: 'Apartar a todas las personas de la máquina',
    stop: 'Detener aquí el trabajo',
    finish: 'Devolver al servicio',
    gather: 'Reunir herramientas, piezas y equipos de protección',
    notice: 'Leer antes de seguir',
    remedies: 'Probar los remedios por orden'
  },
  titles: {
    live: (names) => `Ensayo en tensión cerca de ${list(names)}`,
    identify: (axis) => `Identificar la variante: ${axis}`,
    isolate: (names) => `Separar ${list(names)}: posición segura`,
    lock: (names) => `Bloquear y etiquetar ${list(names)}`,
    relieve: (names) => `Disipar la energía de ${list(names)}`,
    restrain: (names) => `Colocar ${list(names)}`,
    lamp: (names, expect) => `Mirar la lámpara de ${list(names)}: ${expect === 'dark' ? 'apagada' : 'encendida'}`,
    prove: (names) => `Verificar la ausencia de energía de ${list(names)}`,
    trial: (names) => `Verificar la ausencia de energía de ${list(names)} probando a mover`,
    sign: (role) => `Firmar como ${role}`,
    remove: (names) => `Retirar ${list(names)}`,
    putOn: (names) => `Colocar: ${list(names)}`,
    takeOff: (names) => `Retirar: ${list(names)}`,
    unlock: (names) => `Desbloquear ${list(names)}`,
    energize: (names) => `Conectar ${list(names)}`,
    branch: (axis) => `Según la variante: ${axis}`,
    only: (values) => `Solo para ${values}`,
    within: (seconds) => `En menos de ${seconds} s`,
    back: (to) => `Volver a ${to}`
  },
  yes: 'Sí',
  no: 'No',
  remedy: (number, count, label) => `Remedio ${number} de ${count}: ${label}`,
  pair: (first, second) => `${first} a ${second}`,
  earth: 'tierra',
  details: {
    measures: (what) => `mide ${what}`,
    rated: (volts) => `tensión asignada ${volts}`,
    category: (category) => `categoría de medida ${category}`,
    range: (low, high) => `margen de ${low} a ${high}`,
    size: (size) => `tamaño ${size}`,
    torque: (torque) => `par ${torque}`,
    calibration: 'calibración vigente',
    number: (number) => `número: ${number}`,
    quantity: (quantity) => `cantidad: ${quantity}`,
    glove: (glove) => `clase ${glove}`
  },
  measured: {
    voltage: 'tensión',
    pressure: 'presión',
    speed: 'velocidad',
    temperature: 'temperatura',
    current: 'corriente'
  }
}
