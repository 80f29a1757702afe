import type { Catalog } from '../catalog.js'
import { duration } from '../text/duration.js'

/** German wording on the steps, at stops, of ways on and of limits. */
export const germanSteps: Pick<Catalog, 'steps' | 'stops' | 'ways' | 'limits'> = {
  steps: {
    gate: 'Haltepunkt',
    role: (name) => `Ausführung: ${name}`,
    wear: (names) => `Tragen: ${names}`,
    using: (names) => `Mit: ${names}`,
    minutes: (minutes) => `Gewöhnlich ${minutes} min`,
    again: 'Kann wiederkommen: eine Zeile für jedes Mal. Mehr als dreimal: ein neues Blatt nehmen und es vermerken.',
    absent: (names) => `Nicht bei dieser Ausführung: ${names}.`,
    retake: 'Außerhalb der Grenzen: noch einmal messen und ins nächste Feld schreiben.',
    retakeThenWay: (way) => `Auch im letzten Feld außerhalb: weiter wie bei „${way}“.`,
    retakeThenStop: 'Auch im letzten Feld außerhalb: nicht weitergehen, den Koordinator fragen.',
    backFrom: (steps) => `Auch noch einmal, wenn ${steps} hierher zurückschickt.`,
    onlyFrom: (steps) => `Nur von ${steps} aus.`,
    gather:
      'Alles unter „Vor dem ersten Schloss bereitlegen“ auf den ersten Seiten ist angekreuzt und in gutem Zustand.',
    lockPoint: (safe) => `in sichere Stellung gebracht (${safe}); Schloss und Anhänger hängen`,
    isolatePoint: (safe) => `in sichere Stellung gebracht (${safe}); noch kein Schloss`,
    unlockPoint: 'eigenes Schloss und eigener Anhänger abgenommen',
    energizePoint: 'wieder eingeschaltet',
    lockNumber: 'Schloss Nr.',
    othersLock:
      'Weitere Personen unter dieser Sicherung: auch ihre eigenen Schlösser, siehe „Personen bei dieser Arbeit“.',
    othersUnlock: 'Weitere Personen nehmen ihre eigenen Schlösser ab: siehe „Personen bei dieser Arbeit“.',
    tried: 'versucht: nichts läuft an, und der Startbefehl steht wieder auf Aus',
    letOut: (names) => `${names}: abgebaut wie beschrieben`,
    byWhom: 'Name',
    restraintOn: 'ist angebracht',
    restraintOff: 'ist abgenommen',
    lampDark: 'dunkel, wie es sein muss',
    lampLit: 'leuchtet, wie es sein muss',
    ifLive:
      'Ein Messwert auf oder über dem Grenzwert heißt UNTER SPANNUNG oder DRUCK: zurücktreten, alle Schlösser hängen lassen, nicht weitergehen. Wert, Grund und nächsten Messwert unter „Notizen“ aufschreiben.',
    lampNoProof: 'Eine Lampe weist nichts nach: die Feststellung kommt später.',
    testerBefore: 'Prüfgerät arbeitet, vor der Prüfung versucht an',
    testerAfter: 'Prüfgerät arbeitet, nach der Prüfung versucht an',
    known: 'einer bekannten spannungführenden Quelle',
    trial: (name) => `${name}: bewegt sich beim Versuch nicht`,
    told: 'unterrichtet',
    acknowledge: 'gelesen und verstanden',
    wait: (seconds) => `Mindestens ${duration(seconds)} warten`,
    started: 'Begonnen',
    ends: 'Nicht vor',
    timer: (seconds) => `Die folgenden Schritte müssen innerhalb von ${duration(seconds)} getan sein.`,
    deadline: 'Spätestens bis',
    powerOn: (names) => `UNTER SPANNUNG. Geprüft wird: ${names}.`,
    near: (names) => `In der Nähe: ${names}.`,
    apart: (names) => `Auch eingeschaltet, außer Reichweite gehalten: ${names}.`,
    why: (why) => `Warum: ${why}`,
    permit: (steps) => `Nur mit der Unterschrift aus ${steps}.`,
    leaves: (names) => `Bleibt bei dieser Arbeit eingeschaltet: ${names}.`,
    identified: (axis, steps) => `Welche Ausführung es ist (${axis}), wurde bei ${steps} festgestellt.`,
    knownBefore: 'Wurde es schon festgestellt, diesen Schritt übergehen.',
    serial: 'Gerät Nr.',
    due: 'Kalibriert bis',
    readFrom: (from) => `Ablesen an ${from}, ohne zu berühren.`,
    signAs: (role) => `Unterschrift: ${role}`,
    tell: (who) => `Unterrichten: ${who}`,
    left: 'In diesem Zustand verlassen',
    finish: 'Wieder in Betrieb: alle Schlösser und Rückhaltungen ab, kontrolliert, alle Personen außer Reichweite.',
    picture: (alternate) => `Bild: ${alternate}`
  },
  stops: {
    ends: 'Die Arbeit endet hier.',
    stayOn: (points) => `Schlösser und Anhänger an ${points} bleiben hängen. Die Anlage bleibt außer Betrieb.`,
    mayHang: (points) =>
      `Ob Schlösser an ${points} hängen, kommt auf den Weg hierher an: hängen welche, bleiben sie. Hängt keines, das Gerät sichern, bevor die Anlage verlassen wird, oder die Anlage nach den Regeln des Betriebs der verantwortlichen Person übergeben.`,
    notLocked: (points) =>
      `An ${points} hängt kein Schloss: sichern, bevor die Anlage verlassen wird, oder die Anlage nach den Regeln des Betriebs der verantwortlichen Person übergeben.`,
    nothingLocked: (points, canBeOn) =>
      `Hier ist nichts gesichert${canBeOn ? ', und die Anlage kann eingeschaltet sein' : ''}: ${points} sichern, bevor die Anlage verlassen wird, oder sie nach den Regeln des Betriebs der verantwortlichen Person übergeben.`,
    noDevice: 'Die Anlage nach den Regeln des Betriebs der verantwortlichen Person übergeben.',
    held: (restraints) => `Bleibt angebracht: ${restraints}.`,
    maybeHeld: (restraints) => `Bleibt angebracht, wo es angebracht wurde: ${restraints}.`
  },
  ways: {
    goOn: (number) => `Weiter mit Schritt ${number}`,
    goBack: (number) => `Zurück zu Schritt ${number}`,
    inside: 'Innerhalb der Grenzen',
    outside: 'Weiterhin außerhalb der Grenzen',
    inTime: 'Rechtzeitig getan',
    late: 'Die Zeit lief vorher ab',
    otherSheet: 'HALT. Dieses Blatt gilt dafür nicht: das Blatt für jene Ausführung nehmen.',
    generation: (name, tell) => (tell === '' ? name : `${name} (${tell})`)
  },
  limits: {
    between: (min, max) => `${min} bis ${max}`,
    atLeast: (min) => `mindestens ${min}`,
    atMost: (max) => `höchstens ${max}`,
    below: (below) => `unter ${below}`,
    zero: (zero) => `${zero}, nicht darüber`,
    none: 'notieren, was angezeigt wird'
  }
}
