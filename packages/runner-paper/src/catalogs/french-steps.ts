import type { Catalog } from '../catalog.js'
import { duration } from '../text/duration.js'

/** French wording on the steps, at stops, of ways on and of limits. */
export const frenchSteps: Pick<Catalog, 'steps' | 'stops' | 'ways' | 'limits'> = {
  steps: {
    gate: "point d'arrêt",
    role: (name) => `Fait par\u00A0: ${name}`,
    wear: (names) => `Porter\u00A0: ${names}`,
    using: (names) => `Avec\u00A0: ${names}`,
    minutes: (minutes) => `Habituellement ${minutes} min`,
    again:
      'Peut revenir\u00A0: une ligne pour chaque fois. Plus de trois fois\u00A0: prendre une nouvelle feuille et le noter.',
    absent: (names) => `Absent de cette variante\u00A0: ${names}.`,
    retake: 'Hors limites\u00A0: mesurer encore, et noter dans la case suivante.',
    retakeThenWay: (way) =>
      `Hors limites aussi dans la dernière case\u00A0: continuer comme dit à «\u00A0${way}\u00A0».`,
    retakeThenStop: 'Hors limites aussi dans la dernière case\u00A0: ne pas continuer, et demander au coordinateur.',
    backFrom: (steps) => `Refait aussi quand on est renvoyé ici par ${steps}.`,
    onlyFrom: (steps) => `Seulement depuis ${steps}.`,
    gather:
      'Tout ce qui figure sous «\u00A0À réunir avant le premier cadenas\u00A0», aux premières pages, est coché et en bon état.',
    lockPoint: (safe) => `mis en position sûre (${safe})\u00A0; cadenas et étiquette posés`,
    isolatePoint: (safe) => `mis en position sûre (${safe})\u00A0; pas encore de cadenas`,
    unlockPoint: 'son propre cadenas et sa propre étiquette déposés',
    energizePoint: 'remis sous énergie',
    lockNumber: 'Cadenas n°',
    othersLock:
      'Les autres personnes sous cette consignation\u00A0: leurs propres cadenas aussi, voir «\u00A0Personnes à ce travail\u00A0».',
    othersUnlock: 'Les autres déposent leurs propres cadenas\u00A0: voir «\u00A0Personnes à ce travail\u00A0».',
    tried: "essayé\u00A0: rien n'a démarré, et la commande est revenue à l'arrêt",
    letOut: (names) => `${names}\u00A0: dissipée comme indiqué`,
    byWhom: 'Nom',
    restraintOn: 'est en place',
    restraintOff: 'est déposé',
    lampDark: 'éteint, comme il le doit',
    lampLit: 'allumé, comme il le doit',
    ifLive:
      'Une valeur égale ou supérieure à la limite signifie SOUS ÉNERGIE\u00A0: rester à distance, laisser tous les cadenas, ne pas continuer. L’inscrire avec la raison et la valeur suivante sous «\u00A0Notes\u00A0».',
    lampNoProof: 'Un voyant ne prouve rien\u00A0: la vérification vient plus tard.',
    testerBefore: 'Le vérificateur fonctionne, essayé avant la vérification sur',
    testerAfter: 'Le vérificateur fonctionne, essayé après la vérification sur',
    known: 'une source sous tension connue',
    trial: (name) => `${name}\u00A0: ne bouge pas à l'essai`,
    told: 'prévenu',
    acknowledge: 'lu et compris',
    wait: (seconds) => `Attendre au moins ${duration(seconds)}`,
    started: 'Commencé',
    ends: 'Pas avant',
    timer: (seconds) => `Les étapes suivantes doivent être faites en moins de ${duration(seconds)}.`,
    deadline: 'À faire avant',
    powerOn: (names) => `SOUS TENSION. En essai\u00A0: ${names}.`,
    near: (names) => `Près de\u00A0: ${names}.`,
    apart: (names) => `Aussi en marche, tenu hors d'atteinte\u00A0: ${names}.`,
    why: (why) => `Pourquoi\u00A0: ${why}`,
    permit: (steps) => `Seulement avec la signature de ${steps}.`,
    leaves: (names) => `Reste en marche pendant ce travail\u00A0: ${names}.`,
    identified: (axis, steps) => `La variante (${axis}) a été identifiée à ${steps}.`,
    knownBefore: 'Si elle a déjà été identifiée, passer cette étape.',
    serial: 'Instrument n°',
    due: "Étal. jusqu'au",
    readFrom: (from) => `Lire sur ${from}, sans toucher.`,
    signAs: (role) => `Signature\u00A0: ${role}`,
    tell: (who) => `Prévenir\u00A0: ${who}`,
    left: 'Laissé dans cet état',
    finish: "Remis en service\u00A0: tous les cadenas et retenues ôtés, contrôlé, toutes les personnes à l'écart.",
    picture: (alternate) => `Image\u00A0: ${alternate}`
  },
  stops: {
    ends: 'Le travail finit ici.',
    stayOn: (points) => `Les cadenas et étiquettes sur ${points} restent en place. L'équipement reste hors service.`,
    mayHang: (points) =>
      `La présence de cadenas sur ${points} dépend du chemin suivi jusqu'ici\u00A0: s'il y en a, ils restent. Là où il n'y en a pas, condamner l'organe avant de quitter l'équipement, ou remettre l'équipement à la personne responsable selon les règles de l'usine.`,
    notLocked: (points) =>
      `Aucun cadenas sur ${points}\u00A0: condamner avant de quitter l'équipement, ou remettre l'équipement à la personne responsable selon les règles de l'usine.`,
    nothingLocked: (points, canBeOn) =>
      `Rien n'est condamné ici${canBeOn ? ", et l'équipement peut être en marche" : ''}\u00A0: condamner ${points} avant de quitter l'équipement, ou le remettre à la personne responsable selon les règles de l'usine.`,
    noDevice: "Remettre l'équipement à la personne responsable selon les règles de l'usine.",
    held: (restraints) => `Reste en place\u00A0: ${restraints}.`,
    maybeHeld: (restraints) => `Reste en place là où cela a été posé\u00A0: ${restraints}.`
  },
  ways: {
    goOn: (number) => `Continuer à l'étape ${number}`,
    goBack: (number) => `Revenir à l'étape ${number}`,
    inside: 'Dans les limites',
    outside: 'Toujours hors des limites',
    inTime: 'Fait à temps',
    late: 'Le délai a pris fin avant',
    otherSheet: 'HALTE. Cette feuille ne convient pas\u00A0: prendre la feuille de cette variante.',
    generation: (name, tell) => (tell === '' ? name : `${name} (${tell})`)
  },
  limits: {
    between: (min, max) => `${min} à ${max}`,
    atLeast: (min) => `au moins ${min}`,
    atMost: (max) => `au plus ${max}`,
    below: (below) => `moins de ${below}`,
    zero: (zero) => `${zero}, pas plus`,
    none: 'noter ce qui est affiché'
  }
}
