import type { Catalog } from '../catalog.js'

type Kinds = Pick<Catalog, 'sourceKinds' | 'restraintKinds' | 'bars' | 'quantities'>

/** Spanish names of kinds; terms as in the Spanish EN ISO 14118 and Real Decreto 614/2001, from memory. */
export const spanishKinds: Kinds = {
  sourceKinds: {
    electrical: 'alimentación eléctrica',
    capacitor: 'condensador cargado',
    battery: 'batería',
    magnet: 'campo magnético',
    rotating: 'masa giratoria',
    gravity: 'carga elevada',
    spring: 'muelle',
    gas: 'gas a presión',
    liquid: 'líquido a presión',
    thermal: 'calor o frío',
    other: 'otra energía'
  },
  restraintKinds: {
    earth: 'puesta a tierra',
    short: 'puesta en cortocircuito',
    block: 'calzo',
    pin: 'pasador',
    cover: 'cubierta',
    blank: 'disco ciego',
    chain: 'cadena',
    other: 'otra retención'
  },
  bars: {
    gather: 'PREPARAR',
    notify: 'AVISAR',
    operate: 'MANIOBRAR',
    look: 'MIRAR SIN TOCAR',
    live: 'ENSAYO EN TENSIÓN',
    shutdown: 'PARAR LA MÁQUINA',
    identify: 'QUÉ CAMINO',
    isolate: 'SEPARAR',
    lock: 'BLOQUEAR Y ETIQUETAR',
    relieve: 'DISIPAR LA ENERGÍA',
    restrain: 'RETENER',
    lamp: 'MIRAR, NO ES PRUEBA',
    prove: 'VERIFICAR AUSENCIA DE ENERGÍA',
    tryout: 'INTENTAR ARRANCAR',
    signoff: 'FIRMAR',
    work: 'TRABAJAR',
    measure: 'MEDIR',
    wait: 'ESPERAR',
    inspect: 'INSPECCIONAR',
    clear: 'DESPEJAR LA ZONA',
    remove: 'RETIRAR',
    unlock: 'DESBLOQUEAR',
    energize: 'CONECTAR',
    stop: 'PARAR AQUÍ',
    finish: 'DE NUEVO EN SERVICIO',
    ask: 'QUÉ CAMINO',
    notice: 'LEER',
    branch: 'QUÉ CAMINO',
    timer: 'EMPIEZA EL PLAZO',
    back: 'VOLVER ATRÁS'
  },
  quantities: {
    voltage: '',
    pressure: '',
    speed: '',
    temperature: '',
    capacitance: '',
    inertia: '',
    mass: '',
    bleed: 'resistencia de descarga',
    'label-wait': 'espera según la placa',
    'safe-below': 'seguro por debajo de',
    'fault-current': 'corriente de cortocircuito',
    'coast-down': 'se para en',
    'friction-torque': 'rozamiento',
    'gas-volume': 'volumen de gas',
    'bleed-bore': 'orificio de purga',
    'time-constant': 'constante de tiempo'
  }
}
