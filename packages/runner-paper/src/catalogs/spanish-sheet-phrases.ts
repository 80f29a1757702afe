import type { Phrase } from '../translations/rephrase.js'

/** What else the energy package says on a calculation sheet, in Spanish. Formulas, sources and notes stay in English. */
export const spanishSheetPhrases: readonly Phrase[] = [
  ['{1}, at best {2}', '{1}, en el mejor caso {2}'],
  ['not computable, missing {1}', 'no calculable, falta {1}'],
  [
    'A supply stores nothing, and feeds whatever is connected to it.',
    'Una alimentación no acumula nada, y alimenta lo que esté conectado.'
  ],
  [
    'A supply stores nothing: it is dead once it is isolated, and live until then.',
    'Una alimentación no acumula nada: separada queda sin tensión, y hasta entonces no.'
  ],
  ['No figure is given for this kind of source.', 'No se da ninguna cifra para este tipo de fuente.'],
  ['A battery keeps its charge however long the wait is.', 'Una batería conserva su carga por mucho que se espere.'],
  [
    'A raised load stays dangerous until it is lowered or held.',
    'Una carga elevada sigue siendo peligrosa hasta que se baje o se sujete.'
  ],
  [
    'A loaded spring stays loaded until it is let out or held.',
    'Un muelle cargado sigue cargado hasta que se suelte o se sujete.'
  ],
  ['{1}, as written ({2})', '{1}, como dice el procedimiento ({2})'],
  ['{1}, as its label asks ({2})', '{1}, como pide la placa ({2})'],
  ['{1}, as the worst case takes ({2})', '{1}, lo que tarda el peor caso ({2})'],
  ['trivial', 'leve'],
  ['dangerous', 'peligrosa'],
  ['very dangerous', 'muy peligrosa'],
  [
    '{1}, below every threshold known here; it stays in the procedure all the same',
    '{1}, por debajo de todo umbral conocido aquí; se queda en el procedimiento igualmente'
  ],
  ['{1}, from {2}: {3} ({4}; {5})', '{1}, desde {2}: {3} ({4}; {5})'],
  [
    'means of discharge are called for above 0.1 J, and 0.25 J is a heavy shock',
    'por encima de 0,1 J se piden medios de descarga, y 0,25 J son una descarga fuerte'
  ],
  ['a shock of more than 10 J can kill', 'una descarga de más de 10 J puede matar'],
  [
    'as for a capacitor: a field that breaks down is felt as a shock',
    'como en un condensador: un campo que se corta se siente como una descarga'
  ],
  [
    'as for a capacitor: a shock of more than 10 J can kill',
    'como en un condensador: una descarga de más de 10 J puede matar'
  ],
  [
    'a power-driven guard may carry 4 J where nothing stops it on contact',
    'un resguardo motorizado puede llevar 4 J donde nada lo detiene al tocarlo'
  ],
  [
    'a flying fragment of 79 J (58 ft·lbf) counts as hazardous to life',
    'un fragmento lanzado de 79 J (58 ft·lbf) se considera peligroso para la vida'
  ],
  [
    'as for a moving guard: the energy goes into what flies off',
    'como en un resguardo móvil: la energía va a lo que sale despedido'
  ],
  [
    'more than 100 kJ in a vessel is called highly hazardous',
    'más de 100 kJ en un recipiente se consideran muy peligrosos'
  ],
  [
    'a safety sheet on the discharge of capacitors, author not shown',
    'una hoja de seguridad sobre la descarga de condensadores, sin autor'
  ],
  [
    'a university page on the stored energy of pressurised gas vessels',
    'una página universitaria sobre la energía acumulada en recipientes de gas a presión'
  ],
  ['published', 'publicado'],
  ['from memory', 'de memoria'],
  ['by analogy, no source of its own', 'por analogía, sin fuente propia'],
  [
    'A hot surface is judged by its temperature, its material and the time of contact, not by its energy.',
    'Una superficie caliente se juzga por su temperatura, su material y el tiempo de contacto, no por su energía.'
  ],
  [
    'A battery is judged by its voltage and by what it can drive through a short circuit, not by its energy.',
    'Una batería se juzga por su tensión y por lo que puede dar en cortocircuito, no por su energía.'
  ],
  [
    'A supply is judged by its voltage: it feeds as much energy as the fault lasts.',
    'Una alimentación se juzga por su tensión: da energía mientras dure el defecto.'
  ],
  [
    'No threshold in joules is published for this kind of source.',
    'Para este tipo de fuente no hay publicado ningún umbral en julios.'
  ],
  ['{1} (default of its kind)', '{1} (valor por defecto de su tipo)'],
  ['{1} (default of its kind), {2}', '{1} (valor por defecto de su tipo), {2}'],
  ['{1} (assumed)', '{1} (supuesto)'],
  ['{1} (assumed), {2}', '{1} (supuesto), {2}'],
  [
    'The pressure does not tell what makes it. Where liquid that stands above does, give `column-height`. Where a pump does, give `bulk-modulus`.',
    'La presión no dice qué la produce. Si la produce líquido que está por encima, indicar `column-height`. Si la produce una bomba, indicar `bulk-modulus`.'
  ],
  [
    'The pressure does not tell what makes it. Where liquid that stands above does, give `column-height`; it is at most {1} then. Where a pump does, give `bulk-modulus`.',
    'La presión no dice qué la produce. Si la produce líquido que está por encima, indicar `column-height`; son entonces {1} como máximo. Si la produce una bomba, indicar `bulk-modulus`.'
  ],
  [
    'The preload is greater than the deflection gives: where the deflection was measured from the preloaded length, add the preload to it, for the spring holds more than is reckoned here.',
    'La precarga es mayor que lo que da la deformación: si esta se midió desde la longitud precargada, sumarle la precarga, pues el muelle guarda más de lo calculado aquí.'
  ],
  [
    'No touch threshold can be given: missing {1}. The time of contact and the material decide what burns.',
    'No se puede dar umbral de quemadura: falta {1}. El tiempo de contacto y el material deciden qué quema.'
  ],
  ['No touch threshold can be given: {1}', 'No se puede dar umbral de quemadura: {1}'],
  ['Energy', 'Energía'],
  ['Time', 'Tiempo'],
  ['Energy in the battery', 'Energía de la batería'],
  ['Energy in the capacitor bank', 'Energía de la batería de condensadores'],
  [
    'Time to the safe voltage through the balancing resistors',
    'Tiempo hasta la tensión segura por las resistencias de equilibrado'
  ],
  [
    'Voltage that stays at a position whose balancing resistor is open',
    'Tensión que queda en una posición con la resistencia de equilibrado abierta'
  ],
  ['Energy in the capacitor', 'Energía del condensador'],
  ['Energy left at the safe level', 'Energía que queda en el nivel seguro'],
  ['Charge in the capacitor', 'Carga del condensador'],
  ['Time to the safe voltage', 'Tiempo hasta la tensión segura'],
  ['Energy in the magnetic field', 'Energía del campo magnético'],
  ['Time to the safe current', 'Tiempo hasta la corriente segura'],
  ['Time to the safe energy', 'Tiempo hasta la energía segura'],
  ['Energy of the gas, isentropic expansion', 'Energía del gas, expansión isentrópica'],
  ['Energy of the gas, after Brode', 'Energía del gas, según Brode'],
  ['Energy of the gas, isothermal expansion', 'Energía del gas, expansión isotérmica'],
  ['Energy of the gas, thermodynamic availability', 'Energía del gas, exergía'],
  ['Energy of the gas, ASME PCC-2', 'Energía del gas, ASME PCC-2'],
  ['TNT equivalence, ASME PCC-2', 'Equivalente de TNT, ASME PCC-2'],
  ['Distance to keep in a pneumatic test, ASME PCC-2', 'Distancia en una prueba neumática, ASME PCC-2'],
  ['Time to vent through the bore, {1}', 'Tiempo de purga por el orificio, {1}'],
  ['isothermal', 'isotérmico'],
  ['adiabatic', 'adiabático'],
  ['Energy that the gas gives to the oil, slow', 'Energía que el gas da al aceite, lento'],
  ['Energy that the gas gives to the oil, fast (n = 1.4)', 'Energía que el gas da al aceite, rápido (n = 1,4)'],
  ['Oil in the accumulator', 'Aceite en el acumulador'],
  [
    'Energy of the precharge gas that stays when the oil is drained',
    'Energía del gas de precarga que queda al vaciar el aceite'
  ],
  ['Energy of the squeezed liquid', 'Energía del líquido comprimido'],
  ['Energy of the standing column', 'Energía de la columna de líquido'],
  ['Time for the standing column to run down', 'Tiempo de vaciado de la columna'],
  ['Time to run out', 'Tiempo de vaciado'],
  ['Energy of the turning mass', 'Energía de la masa giratoria'],
  ['Coast-down against a constant friction torque', 'Parada libre con par de rozamiento constante'],
  ['Coast-down as measured', 'Parada libre medida'],
  ['Friction torque that the measured coast-down stands for', 'Par de rozamiento que corresponde a la parada medida'],
  ['Revolutions until it stands still', 'Vueltas hasta la parada'],
  ['Energy of the raised load', 'Energía de la carga elevada'],
  ['Energy in the spring, down to its unloaded length', 'Energía del muelle hasta su longitud libre'],
  ['Energy that the spring gives up on the way to its stop', 'Energía que cede el muelle hasta su tope'],
  ['Energy that the spring keeps at its stop', 'Energía que guarda el muelle en su tope'],
  ['Time to cool to the safe temperature', 'Tiempo de enfriamiento hasta la temperatura segura'],
  ['{1} over time', '{1} en el tiempo'],
  [
    '{1} ({2}; no key of the front matter: give it as a what-if)',
    '{1} ({2}; sin clave en el procedimiento: darlo como supuesto)'
  ],
  ['heat capacity, which no parameter gives', 'capacidad térmica, que ningún parámetro da'],
  ['density of the liquid, which no parameter gives', 'densidad del líquido, que ningún parámetro da'],
  ['a formula for this kind of source', 'una fórmula para este tipo de fuente'],
  ['prospective fault current', 'corriente de cortocircuito prevista'],
  ['resistance across it once isolated', 'resistencia en paralelo una vez separado'],
  ['wait on the label of the equipment', 'espera según la placa del equipo'],
  ['level below which it counts as safe', 'nivel por debajo del cual se considera seguro'],
  ['capacity of a battery', 'capacidad de una batería'],
  ['resistance of the circuit', 'resistencia del circuito'],
  ['moment of inertia', 'momento de inercia'],
  ['speed of rotation', 'velocidad de giro'],
  ['measured time from full speed to standstill', 'tiempo medido de plena velocidad a parada'],
  ['friction torque', 'par de rozamiento'],
  ['height it can fall', 'altura desde la que puede caer'],
  ['spring rate', 'constante del muelle'],
  ['deflection from the unloaded length', 'deformación desde la longitud libre'],
  ['preload that stays when it is let out to its stop', 'precarga que queda en el tope'],
  ['bore of the hole it vents through', 'diámetro del orificio de purga'],
  ['gas volume of the empty accumulator', 'volumen de gas del acumulador vacío'],
  ['precharge of the gas', 'precarga del gas'],
  ['temperature of the surroundings', 'temperatura ambiente'],
  ['time constant of the cooling', 'constante de tiempo del enfriamiento'],
  ['discharge coefficient of the outlet', 'coeficiente de descarga de la salida'],
  ['ratio of specific heats of the gas', 'relación de calores específicos del gas'],
  ['absolute ambient pressure', 'presión ambiente absoluta'],
  ['bulk modulus of the liquid', 'módulo de compresibilidad del líquido'],
  ['height of a standing column', 'altura de una columna de líquido'],
  ['capacitance of one element of a bank', 'capacidad de un elemento de la batería'],
  ['positions in series in a bank', 'posiciones en serie de una batería'],
  ['elements in parallel at each position', 'elementos en paralelo en cada posición'],
  ['balancing resistor across each position of a bank', 'resistencia de equilibrado en cada posición'],
  ['which gas it is', 'qué gas es'],
  [
    '{1} (which gas it is; no key of the front matter: give it as a what-if)',
    '{1} (qué gas es; sin clave en el procedimiento: darlo como supuesto)'
  ],
  ['{1} ({2})', '{1} ({2})']
]
