import type { Phrase } from '../translations/rephrase.js'

/** What else the energy package says on a calculation sheet, in German. Formulas, sources and notes stay in English. */
export const germanSheetPhrases: readonly Phrase[] = [
  ['{1}, at best {2}', '{1}, günstigstenfalls {2}'],
  ['not computable, missing {1}', 'nicht berechenbar, es fehlt {1}'],
  [
    'A supply stores nothing, and feeds whatever is connected to it.',
    'Eine Einspeisung speichert nichts und speist, was an ihr hängt.'
  ],
  [
    'A supply stores nothing: it is dead once it is isolated, and live until then.',
    'Eine Einspeisung speichert nichts: freigeschaltet ist sie spannungsfrei, bis dahin nicht.'
  ],
  ['No figure is given for this kind of source.', 'Für diese Art von Quelle ist kein Wert angegeben.'],
  [
    'A battery keeps its charge however long the wait is.',
    'Eine Batterie behält ihre Ladung, wie lange man auch wartet.'
  ],
  [
    'A raised load stays dangerous until it is lowered or held.',
    'Eine angehobene Last bleibt gefährlich, bis sie abgesenkt oder gehalten ist.'
  ],
  [
    'A loaded spring stays loaded until it is let out or held.',
    'Eine gespannte Feder bleibt gespannt, bis sie entspannt oder gehalten ist.'
  ],
  ['{1}, as written ({2})', '{1}, wie im Verfahren ({2})'],
  ['{1}, as its label asks ({2})', '{1}, wie das Schild verlangt ({2})'],
  ['{1}, as the worst case takes ({2})', '{1}, wie der ungünstigste Fall dauert ({2})'],
  ['trivial', 'gering'],
  ['dangerous', 'gefährlich'],
  ['very dangerous', 'sehr gefährlich'],
  [
    '{1}, below every threshold known here; it stays in the procedure all the same',
    '{1}, unter jeder hier bekannten Schwelle; sie bleibt trotzdem im Verfahren'
  ],
  ['{1}, from {2}: {3} ({4}; {5})', '{1}, ab {2}: {3} ({4}; {5})'],
  [
    'means of discharge are called for above 0.1 J, and 0.25 J is a heavy shock',
    'über 0,1 J sind Entladeeinrichtungen verlangt, und 0,25 J sind ein schwerer Schlag'
  ],
  ['a shock of more than 10 J can kill', 'ein Schlag von mehr als 10 J kann töten'],
  [
    'as for a capacitor: a field that breaks down is felt as a shock',
    'wie bei einem Kondensator: ein zusammenbrechendes Feld ist als Schlag zu spüren'
  ],
  [
    'as for a capacitor: a shock of more than 10 J can kill',
    'wie bei einem Kondensator: ein Schlag von mehr als 10 J kann töten'
  ],
  [
    'a power-driven guard may carry 4 J where nothing stops it on contact',
    'eine kraftbetriebene Schutzeinrichtung darf 4 J haben, wo nichts sie bei Berührung anhält'
  ],
  [
    'a flying fragment of 79 J (58 ft·lbf) counts as hazardous to life',
    'ein fliegendes Bruchstück von 79 J (58 ft·lbf) gilt als lebensgefährlich'
  ],
  [
    'as for a moving guard: the energy goes into what flies off',
    'wie bei einer bewegten Schutzeinrichtung: die Energie geht in das, was wegfliegt'
  ],
  [
    'more than 100 kJ in a vessel is called highly hazardous',
    'mehr als 100 kJ in einem Behälter gelten als höchst gefährlich'
  ],
  [
    'a safety sheet on the discharge of capacitors, author not shown',
    'ein Sicherheitsblatt zur Entladung von Kondensatoren, ohne Verfasser'
  ],
  [
    'a university page on the stored energy of pressurised gas vessels',
    'eine Hochschulseite über die gespeicherte Energie von Druckgasbehältern'
  ],
  ['published', 'veröffentlicht'],
  ['from memory', 'aus dem Gedächtnis'],
  ['by analogy, no source of its own', 'durch Vergleich, ohne eigene Quelle'],
  [
    'A hot surface is judged by its temperature, its material and the time of contact, not by its energy.',
    'Eine heiße Oberfläche wird nach Temperatur, Werkstoff und Berührungszeit beurteilt, nicht nach ihrer Energie.'
  ],
  [
    'A battery is judged by its voltage and by what it can drive through a short circuit, not by its energy.',
    'Eine Batterie wird nach ihrer Spannung und ihrem Kurzschlussstrom beurteilt, nicht nach ihrer Energie.'
  ],
  [
    'A supply is judged by its voltage: it feeds as much energy as the fault lasts.',
    'Eine Einspeisung wird nach ihrer Spannung beurteilt: sie liefert Energie, solange der Fehler dauert.'
  ],
  [
    'No threshold in joules is published for this kind of source.',
    'Für diese Art von Quelle ist keine Schwelle in Joule veröffentlicht.'
  ],
  ['{1} (default of its kind)', '{1} (Vorgabe für diese Art)'],
  ['{1} (default of its kind), {2}', '{1} (Vorgabe für diese Art), {2}'],
  ['{1} (assumed)', '{1} (angenommen)'],
  ['{1} (assumed), {2}', '{1} (angenommen), {2}'],
  [
    'The pressure does not tell what makes it. Where liquid that stands above does, give `column-height`. Where a pump does, give `bulk-modulus`.',
    'Der Druck sagt nicht, was ihn macht. Macht ihn Flüssigkeit, die darüber steht, `column-height` angeben. Macht ihn eine Pumpe, `bulk-modulus` angeben.'
  ],
  [
    'The pressure does not tell what makes it. Where liquid that stands above does, give `column-height`; it is at most {1} then. Where a pump does, give `bulk-modulus`.',
    'Der Druck sagt nicht, was ihn macht. Macht ihn Flüssigkeit, die darüber steht, `column-height` angeben; es sind dann höchstens {1}. Macht ihn eine Pumpe, `bulk-modulus` angeben.'
  ],
  [
    'The preload is greater than the deflection gives: where the deflection was measured from the preloaded length, add the preload to it, for the spring holds more than is reckoned here.',
    'Die Vorspannung ist größer, als der Federweg ergibt: wurde er ab der vorgespannten Länge gemessen, die Vorspannung dazuzählen, denn die Feder hält mehr, als hier gerechnet ist.'
  ],
  [
    'No touch threshold can be given: missing {1}. The time of contact and the material decide what burns.',
    'Keine Verbrennungsschwelle angebbar: es fehlt {1}. Berührungszeit und Werkstoff entscheiden, was verbrennt.'
  ],
  ['No touch threshold can be given: {1}', 'Keine Verbrennungsschwelle angebbar: {1}'],
  ['Energy', 'Energie'],
  ['Time', 'Zeit'],
  ['Energy in the battery', 'Energie in der Batterie'],
  ['Energy in the capacitor bank', 'Energie in der Kondensatorbatterie'],
  [
    'Time to the safe voltage through the balancing resistors',
    'Zeit bis zur sicheren Spannung über die Symmetrierwiderstände'
  ],
  [
    'Voltage that stays at a position whose balancing resistor is open',
    'Spannung, die bei offenem Symmetrierwiderstand stehen bleibt'
  ],
  ['Energy in the capacitor', 'Energie im Kondensator'],
  ['Energy left at the safe level', 'Energie, die beim sicheren Wert bleibt'],
  ['Charge in the capacitor', 'Ladung im Kondensator'],
  ['Time to the safe voltage', 'Zeit bis zur sicheren Spannung'],
  ['Energy in the magnetic field', 'Energie im Magnetfeld'],
  ['Time to the safe current', 'Zeit bis zum sicheren Strom'],
  ['Time to the safe energy', 'Zeit bis zur sicheren Energie'],
  ['Energy of the gas, isentropic expansion', 'Energie des Gases, isentrope Ausdehnung'],
  ['Energy of the gas, after Brode', 'Energie des Gases nach Brode'],
  ['Energy of the gas, isothermal expansion', 'Energie des Gases, isotherme Ausdehnung'],
  ['Energy of the gas, thermodynamic availability', 'Energie des Gases, Exergie'],
  ['Energy of the gas, ASME PCC-2', 'Energie des Gases nach ASME PCC-2'],
  ['TNT equivalence, ASME PCC-2', 'TNT-Äquivalent nach ASME PCC-2'],
  ['Distance to keep in a pneumatic test, ASME PCC-2', 'Abstand bei einer Druckprüfung mit Gas nach ASME PCC-2'],
  ['Time to vent through the bore, {1}', 'Zeit zum Entlüften durch die Bohrung, {1}'],
  ['isothermal', 'isotherm'],
  ['adiabatic', 'adiabat'],
  ['Energy that the gas gives to the oil, slow', 'Energie, die das Gas dem Öl gibt, langsam'],
  ['Energy that the gas gives to the oil, fast (n = 1.4)', 'Energie, die das Gas dem Öl gibt, schnell (n = 1,4)'],
  ['Oil in the accumulator', 'Öl im Druckspeicher'],
  [
    'Energy of the precharge gas that stays when the oil is drained',
    'Energie des Vorspanngases, das bleibt, wenn das Öl abgelassen ist'
  ],
  ['Energy of the squeezed liquid', 'Energie der zusammengedrückten Flüssigkeit'],
  ['Energy of the standing column', 'Energie der stehenden Säule'],
  ['Time for the standing column to run down', 'Zeit, bis die Säule ausgelaufen ist'],
  ['Time to run out', 'Zeit zum Auslaufen'],
  ['Energy of the turning mass', 'Energie der rotierenden Masse'],
  ['Coast-down against a constant friction torque', 'Auslauf gegen ein konstantes Reibmoment'],
  ['Coast-down as measured', 'Auslauf wie gemessen'],
  ['Friction torque that the measured coast-down stands for', 'Reibmoment, das dem gemessenen Auslauf entspricht'],
  ['Revolutions until it stands still', 'Umdrehungen bis zum Stillstand'],
  ['Energy of the raised load', 'Energie der angehobenen Last'],
  ['Energy in the spring, down to its unloaded length', 'Energie in der Feder bis zur entspannten Länge'],
  ['Energy that the spring gives up on the way to its stop', 'Energie, die die Feder bis zu ihrem Anschlag abgibt'],
  ['Energy that the spring keeps at its stop', 'Energie, die die Feder an ihrem Anschlag behält'],
  ['Time to cool to the safe temperature', 'Zeit zum Abkühlen auf die sichere Temperatur'],
  ['{1} over time', '{1} über der Zeit'],
  [
    '{1} ({2}; no key of the front matter: give it as a what-if)',
    '{1} ({2}; kein Schlüssel des Verfahrens: als Annahme angeben)'
  ],
  ['heat capacity, which no parameter gives', 'Wärmekapazität, die kein Parameter angibt'],
  ['density of the liquid, which no parameter gives', 'Dichte der Flüssigkeit, die kein Parameter angibt'],
  ['a formula for this kind of source', 'eine Formel für diese Art von Quelle'],
  ['prospective fault current', 'unbeeinflusster Kurzschlussstrom'],
  ['resistance across it once isolated', 'Widerstand parallel dazu nach dem Freischalten'],
  ['wait on the label of the equipment', 'Wartezeit auf dem Schild der Anlage'],
  ['level below which it counts as safe', 'Wert, unter dem es als sicher gilt'],
  ['capacity of a battery', 'Kapazität einer Batterie'],
  ['resistance of the circuit', 'Widerstand des Kreises'],
  ['moment of inertia', 'Trägheitsmoment'],
  ['speed of rotation', 'Drehzahl'],
  ['measured time from full speed to standstill', 'gemessene Zeit von voller Drehzahl bis zum Stillstand'],
  ['friction torque', 'Reibmoment'],
  ['height it can fall', 'mögliche Fallhöhe'],
  ['spring rate', 'Federrate'],
  ['deflection from the unloaded length', 'Federweg ab der entspannten Länge'],
  ['preload that stays when it is let out to its stop', 'Vorspannung, die am Anschlag bleibt'],
  ['bore of the hole it vents through', 'Bohrung, durch die es entlüftet'],
  ['gas volume of the empty accumulator', 'Gasvolumen des leeren Speichers'],
  ['precharge of the gas', 'Vorspanndruck des Gases'],
  ['temperature of the surroundings', 'Umgebungstemperatur'],
  ['time constant of the cooling', 'Zeitkonstante der Abkühlung'],
  ['discharge coefficient of the outlet', 'Ausflusszahl der Öffnung'],
  ['ratio of specific heats of the gas', 'Isentropenexponent des Gases'],
  ['absolute ambient pressure', 'absoluter Umgebungsdruck'],
  ['bulk modulus of the liquid', 'Kompressionsmodul der Flüssigkeit'],
  ['height of a standing column', 'Höhe einer stehenden Säule'],
  ['capacitance of one element of a bank', 'Kapazität eines Elements der Batterie'],
  ['positions in series in a bank', 'Plätze in Reihe in einer Batterie'],
  ['elements in parallel at each position', 'parallele Elemente an jedem Platz'],
  ['balancing resistor across each position of a bank', 'Symmetrierwiderstand an jedem Platz'],
  ['which gas it is', 'welches Gas es ist'],
  [
    '{1} (which gas it is; no key of the front matter: give it as a what-if)',
    '{1} (welches Gas es ist; kein Schlüssel des Verfahrens: als Annahme angeben)'
  ],
  ['{1} ({2})', '{1} ({2})']
]
