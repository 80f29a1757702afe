import type { Phrase } from '../translations/rephrase.js'

/** What else the energy package says on a calculation sheet, in French. Formulas, sources and notes stay in English. */
export const frenchSheetPhrases: readonly Phrase[] = [
  ['{1}, at best {2}', '{1}, au mieux {2}'],
  ['not computable, missing {1}', 'non calculable, il manque {1}'],
  [
    'A supply stores nothing, and feeds whatever is connected to it.',
    "Une alimentation n'accumule rien, et alimente ce qui y est raccordé."
  ],
  [
    'A supply stores nothing: it is dead once it is isolated, and live until then.',
    "Une alimentation n'accumule rien\u00A0: séparée elle est hors tension, et pas avant."
  ],
  ['No figure is given for this kind of source.', "Aucune valeur n'est donnée pour ce type de source."],
  ['A battery keeps its charge however long the wait is.', "Une batterie garde sa charge quelle que soit l'attente."],
  [
    'A raised load stays dangerous until it is lowered or held.',
    "Une charge levée reste dangereuse jusqu'à ce qu'elle soit descendue ou retenue."
  ],
  [
    'A loaded spring stays loaded until it is let out or held.',
    "Un ressort armé reste armé jusqu'à ce qu'il soit détendu ou retenu."
  ],
  ['{1}, as written ({2})', '{1}, comme dit la procédure ({2})'],
  ['{1}, as its label asks ({2})', '{1}, comme demande la plaque ({2})'],
  ['{1}, as the worst case takes ({2})', '{1}, ce que prend le pire cas ({2})'],
  ['trivial', 'faible'],
  ['dangerous', 'dangereuse'],
  ['very dangerous', 'très dangereuse'],
  [
    '{1}, below every threshold known here; it stays in the procedure all the same',
    '{1}, sous tout seuil connu ici\u00A0; elle reste tout de même dans la procédure'
  ],
  ['{1}, from {2}: {3} ({4}; {5})', '{1}, à partir de {2}\u00A0: {3} ({4}\u00A0; {5})'],
  [
    'means of discharge are called for above 0.1 J, and 0.25 J is a heavy shock',
    'au-dessus de 0,1 J des moyens de décharge sont demandés, et 0,25 J est une forte secousse'
  ],
  ['a shock of more than 10 J can kill', 'une secousse de plus de 10 J peut tuer'],
  [
    'as for a capacitor: a field that breaks down is felt as a shock',
    "comme pour un condensateur\u00A0: un champ qui s'effondre se ressent comme une secousse"
  ],
  [
    'as for a capacitor: a shock of more than 10 J can kill',
    'comme pour un condensateur\u00A0: une secousse de plus de 10 J peut tuer'
  ],
  [
    'a power-driven guard may carry 4 J where nothing stops it on contact',
    "un protecteur motorisé peut porter 4 J là où rien ne l'arrête au contact"
  ],
  [
    'a flying fragment of 79 J (58 ft·lbf) counts as hazardous to life',
    'un éclat projeté de 79 J (58 ft·lbf) est tenu pour dangereux pour la vie'
  ],
  [
    'as for a moving guard: the energy goes into what flies off',
    "comme pour un protecteur mobile\u00A0: l'énergie va dans ce qui est projeté"
  ],
  [
    'more than 100 kJ in a vessel is called highly hazardous',
    'plus de 100 kJ dans un réservoir est tenu pour très dangereux'
  ],
  [
    'a safety sheet on the discharge of capacitors, author not shown',
    'une fiche de sécurité sur la décharge des condensateurs, sans auteur'
  ],
  [
    'a university page on the stored energy of pressurised gas vessels',
    "une page universitaire sur l'énergie accumulée des réservoirs de gaz sous pression"
  ],
  ['published', 'publié'],
  ['from memory', 'de mémoire'],
  ['by analogy, no source of its own', 'par analogie, sans source propre'],
  [
    'A hot surface is judged by its temperature, its material and the time of contact, not by its energy.',
    "Une surface chaude se juge d'après sa température, sa matière et la durée du contact, pas d'après son énergie."
  ],
  [
    'A battery is judged by its voltage and by what it can drive through a short circuit, not by its energy.',
    "Une batterie se juge d'après sa tension et ce qu'elle peut débiter en court-circuit, pas d'après son énergie."
  ],
  [
    'A supply is judged by its voltage: it feeds as much energy as the fault lasts.',
    "Une alimentation se juge d'après sa tension\u00A0: elle fournit de l'énergie tant que dure le défaut."
  ],
  [
    'No threshold in joules is published for this kind of source.',
    "Aucun seuil en joules n'est publié pour ce type de source."
  ],
  ['{1} (default of its kind)', '{1} (valeur par défaut de son type)'],
  ['{1} (default of its kind), {2}', '{1} (valeur par défaut de son type), {2}'],
  ['{1} (assumed)', '{1} (supposé)'],
  ['{1} (assumed), {2}', '{1} (supposé), {2}'],
  [
    'The pressure does not tell what makes it. Where liquid that stands above does, give `column-height`. Where a pump does, give `bulk-modulus`.',
    "La pression ne dit pas ce qui la fait. Si c'est du liquide placé au-dessus, donner `column-height`. Si c'est une pompe, donner `bulk-modulus`."
  ],
  [
    'The pressure does not tell what makes it. Where liquid that stands above does, give `column-height`; it is at most {1} then. Where a pump does, give `bulk-modulus`.',
    "La pression ne dit pas ce qui la fait. Si c'est du liquide placé au-dessus, donner `column-height`\u00A0; c'est alors {1} au plus. Si c'est une pompe, donner `bulk-modulus`."
  ],
  [
    'The preload is greater than the deflection gives: where the deflection was measured from the preloaded length, add the preload to it, for the spring holds more than is reckoned here.',
    "La précharge est plus grande que ne le donne la déformation\u00A0: si celle-ci a été mesurée depuis la longueur préchargée, y ajouter la précharge, car le ressort garde plus qu'il n'est calculé ici."
  ],
  [
    'No touch threshold can be given: missing {1}. The time of contact and the material decide what burns.',
    'Aucun seuil de brûlure ne peut être donné\u00A0: il manque {1}. La durée du contact et la matière décident de ce qui brûle.'
  ],
  ['No touch threshold can be given: {1}', 'Aucun seuil de brûlure ne peut être donné\u00A0: {1}'],
  ['Energy', 'Énergie'],
  ['Time', 'Temps'],
  ['Energy in the battery', 'Énergie de la batterie'],
  ['Energy in the capacitor bank', 'Énergie de la batterie de condensateurs'],
  [
    'Time to the safe voltage through the balancing resistors',
    "Temps jusqu'à la tension sûre par les résistances d'équilibrage"
  ],
  [
    'Voltage that stays at a position whose balancing resistor is open',
    "Tension qui reste à une position dont la résistance d'équilibrage est ouverte"
  ],
  ['Energy in the capacitor', 'Énergie du condensateur'],
  ['Energy left at the safe level', 'Énergie qui reste au niveau sûr'],
  ['Charge in the capacitor', 'Charge du condensateur'],
  ['Time to the safe voltage', "Temps jusqu'à la tension sûre"],
  ['Energy in the magnetic field', 'Énergie du champ magnétique'],
  ['Time to the safe current', "Temps jusqu'au courant sûr"],
  ['Time to the safe energy', "Temps jusqu'à l'énergie sûre"],
  ['Energy of the gas, isentropic expansion', 'Énergie du gaz, détente isentropique'],
  ['Energy of the gas, after Brode', 'Énergie du gaz, selon Brode'],
  ['Energy of the gas, isothermal expansion', 'Énergie du gaz, détente isotherme'],
  ['Energy of the gas, thermodynamic availability', 'Énergie du gaz, exergie'],
  ['Energy of the gas, ASME PCC-2', 'Énergie du gaz, ASME PCC-2'],
  ['TNT equivalence, ASME PCC-2', 'Équivalent TNT, ASME PCC-2'],
  ['Distance to keep in a pneumatic test, ASME PCC-2', 'Distance à tenir dans un essai pneumatique, ASME PCC-2'],
  ['Time to vent through the bore, {1}', "Temps de purge par l'orifice, {1}"],
  ['isothermal', 'isotherme'],
  ['adiabatic', 'adiabatique'],
  ['Energy that the gas gives to the oil, slow', "Énergie que le gaz donne à l'huile, lent"],
  ['Energy that the gas gives to the oil, fast (n = 1.4)', "Énergie que le gaz donne à l'huile, rapide (n = 1,4)"],
  ['Oil in the accumulator', "Huile dans l'accumulateur"],
  [
    'Energy of the precharge gas that stays when the oil is drained',
    "Énergie du gaz de précharge qui reste quand l'huile est vidée"
  ],
  ['Energy of the squeezed liquid', 'Énergie du liquide comprimé'],
  ['Energy of the standing column', 'Énergie de la colonne de liquide'],
  ['Time for the standing column to run down', 'Temps de vidange de la colonne'],
  ['Time to run out', 'Temps de vidange'],
  ['Energy of the turning mass', 'Énergie de la masse tournante'],
  ['Coast-down against a constant friction torque', 'Arrêt libre contre un couple de frottement constant'],
  ['Coast-down as measured', 'Arrêt libre mesuré'],
  ['Friction torque that the measured coast-down stands for', "Couple de frottement qui correspond à l'arrêt mesuré"],
  ['Revolutions until it stands still', "Tours jusqu'à l'arrêt"],
  ['Energy of the raised load', 'Énergie de la charge levée'],
  ['Energy in the spring, down to its unloaded length', "Énergie du ressort jusqu'à sa longueur libre"],
  ['Energy that the spring gives up on the way to its stop', "Énergie que cède le ressort jusqu'à sa butée"],
  ['Energy that the spring keeps at its stop', 'Énergie que garde le ressort à sa butée'],
  ['Time to cool to the safe temperature', "Temps de refroidissement jusqu'à la température sûre"],
  ['{1} over time', '{1} dans le temps'],
  [
    '{1} ({2}; no key of the front matter: give it as a what-if)',
    '{1} ({2}\u00A0; pas de clé de la procédure\u00A0: le donner comme supposition)'
  ],
  ['heat capacity, which no parameter gives', "capacité thermique, qu'aucun paramètre ne donne"],
  ['density of the liquid, which no parameter gives', "masse volumique du liquide, qu'aucun paramètre ne donne"],
  ['a formula for this kind of source', 'une formule pour ce type de source'],
  ['prospective fault current', 'courant de court-circuit présumé'],
  ['resistance across it once isolated', 'résistance en parallèle une fois séparé'],
  ['wait on the label of the equipment', "attente sur la plaque de l'équipement"],
  ['level below which it counts as safe', 'niveau sous lequel il est tenu pour sûr'],
  ['capacity of a battery', "capacité d'une batterie"],
  ['resistance of the circuit', 'résistance du circuit'],
  ['moment of inertia', "moment d'inertie"],
  ['speed of rotation', 'vitesse de rotation'],
  ['measured time from full speed to standstill', "temps mesuré de pleine vitesse à l'arrêt"],
  ['friction torque', 'couple de frottement'],
  ['height it can fall', 'hauteur de chute possible'],
  ['spring rate', 'raideur du ressort'],
  ['deflection from the unloaded length', 'déformation depuis la longueur libre'],
  ['preload that stays when it is let out to its stop', 'précharge qui reste à la butée'],
  ['bore of the hole it vents through', "diamètre de l'orifice de purge"],
  ['gas volume of the empty accumulator', "volume de gaz de l'accumulateur vide"],
  ['precharge of the gas', 'précharge du gaz'],
  ['temperature of the surroundings', 'température ambiante'],
  ['time constant of the cooling', 'constante de temps du refroidissement'],
  ['discharge coefficient of the outlet', 'coefficient de décharge de la sortie'],
  ['ratio of specific heats of the gas', 'rapport des chaleurs massiques du gaz'],
  ['absolute ambient pressure', 'pression ambiante absolue'],
  ['bulk modulus of the liquid', 'module de compressibilité du liquide'],
  ['height of a standing column', "hauteur d'une colonne de liquide"],
  ['capacitance of one element of a bank', "capacité d'un élément de la batterie"],
  ['positions in series in a bank', "positions en série d'une batterie"],
  ['elements in parallel at each position', 'éléments en parallèle à chaque position'],
  ['balancing resistor across each position of a bank', "résistance d'équilibrage à chaque position"],
  ['which gas it is', "quel gaz c'est"],
  [
    '{1} (which gas it is; no key of the front matter: give it as a what-if)',
    "{1} (quel gaz c'est\u00A0; pas de clé de la procédure\u00A0: le donner comme supposition)"
  ],
  ['{1} ({2})', '{1} ({2})']
]
