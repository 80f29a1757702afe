import type { Catalog } from '../catalog.js'

/** French wording of placard, tags and labels. */
export const frenchHanging: Catalog['hanging'] = {
  placard: {
    kicker: 'Affiche de maîtrise des énergies',
    notInstead:
      "Un aperçu, pas l'instruction de travail\u00A0: travailler d'après la liste qui porte la même révision et la même empreinte.",
    cautions: [
      "Les règles de l'usine, la réglementation locale et les personnes qualifiées passent avant.",
      'Chaque personne pose son propre cadenas. Condamné ne veut pas dire sans énergie\u00A0: vérifier sur la machine.',
      "Si quelque chose diffère de ce qui est imprimé, s'arrêter, laisser les cadenas, et demander au coordinateur."
    ],
    sources: "Sources d'énergie",
    order: 'Ordre',
    isolateAt: 'Séparer à',
    call: 'Qui appeler',
    callName: 'Nom',
    callNumber: 'Téléphone',
    review: 'Affiché par, date',
    leftOut: (what) => `Omis faute de place, voir la liste\u00A0: ${what}.`,
    parts: {
      scope: "domaine d'application",
      magnitudes: 'énergies accumulées',
      restraints: 'retenues',
      order: 'ordre des étapes'
    }
  },
  tag: {
    legends: ['Ne pas démarrer', 'Ne pas ouvrir', 'Ne pas fermer', 'Ne pas mettre sous énergie', 'Ne pas manœuvrer'],
    owner: 'Cadenas et étiquette de (nom)',
    department: 'Service, téléphone',
    hung: 'Posé le (date, heure)',
    expected: 'Dépose prévue',
    lock: 'Cadenas n°',
    onlyOwner: 'Seule la personne nommée ici dépose cette étiquette et ce cadenas.',
    holds: 'Ce que cet organe coupe',
    safe: 'Position sûre',
    tagAlone:
      'Une étiquette avertit et ne retient rien seule\u00A0: la poser avec un cadenas, solidement, et ne jamais la contourner.',
    fed: (names) => `alimente ${names}`,
    front: 'recto',
    back: 'verso',
    cut: "Couper suivant les traits fins, plier suivant le trait interrompu, percer à l'anneau."
  },
  label: {
    device: 'Organe de séparation',
    isolates: 'Sépare',
    safe: 'Position sûre',
    stored: "l'énergie accumulée reste, la dissiper et en vérifier l'absence",
    proof: 'Condamné ne veut pas dire sans énergie.',
    procedure: (procedure, revision) => `Procédure ${procedure}, révision ${revision}`
  },
  sideBySide: {
    binding: (language) => `On ne note qu'une fois. Le texte émis est celui en ${language}.`
  }
}
