import type { Catalog } from '../catalog.js'

/** German wording of placard, tags and labels. */
export const germanHanging: Catalog['hanging'] = {
  placard: {
    kicker: 'Aushang zum Freischalten und Sichern',
    notInstead: 'Eine Übersicht, keine Arbeitsanweisung: nach der Checkliste gleicher Revision und Prüfsumme arbeiten.',
    cautions: [
      'Die Regeln des Betriebs, die örtlichen Vorschriften und fachkundige Personen gehen vor.',
      'Jede Person hängt ein eigenes Schloss. Gesichert heißt nicht energiefrei: an der Maschine feststellen.',
      'Weicht etwas von diesem Blatt ab: anhalten, Schlösser hängen lassen, den Koordinator fragen.'
    ],
    sources: 'Energiequellen',
    order: 'Reihenfolge',
    isolateAt: 'Trennen an',
    call: 'Wen anrufen',
    callName: 'Name',
    callNumber: 'Telefon',
    review: 'Ausgehängt von, Datum',
    leftOut: (what) => `Aus Platzgründen weggelassen, siehe Checkliste: ${what}.`,
    parts: {
      scope: 'Geltungsbereich',
      magnitudes: 'gespeicherte Energien',
      restraints: 'Rückhaltungen',
      order: 'Reihenfolge der Schritte'
    }
  },
  tag: {
    legends: ['Nicht starten', 'Nicht öffnen', 'Nicht schließen', 'Nicht einschalten', 'Nicht betätigen'],
    owner: 'Schloss und Anhänger von (Name)',
    department: 'Abteilung, Telefon',
    hung: 'Angebracht (Datum, Uhrzeit)',
    expected: 'Voraussichtlich ab am',
    lock: 'Schloss Nr.',
    onlyOwner: 'Nur die hier genannte Person nimmt diesen Anhänger und dieses Schloss ab.',
    holds: 'Was dieses Gerät trennt',
    safe: 'Sichere Stellung',
    tagAlone: 'Ein Anhänger warnt und hält allein nichts: mit einem Schloss fest anbringen und niemals umgehen.',
    fed: (names) => `speist ${names}`,
    front: 'Vorderseite',
    back: 'Rückseite',
    cut: 'An den dünnen Linien schneiden, an der gestrichelten Linie falten, am Ring lochen.'
  },
  label: {
    device: 'Trenneinrichtung',
    isolates: 'Trennt',
    safe: 'Sichere Stellung',
    stored: 'gespeicherte Energie bleibt, abbauen und Energiefreiheit feststellen',
    proof: 'Gesichert heißt nicht energiefrei.',
    procedure: (procedure, revision) => `Verfahren ${procedure}, Revision ${revision}`
  },
  sideBySide: {
    binding: (language) => `Eingetragen wird einmal. Ausgegeben wurde der Text in ${language}.`
  }
}
