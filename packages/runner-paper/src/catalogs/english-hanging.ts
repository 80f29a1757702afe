/** English wording of what hangs or sticks beside the machine: placard, tags, labels; a part of the catalog. */
export const englishHanging = {
  placard: {
    kicker: 'Placard for energy control',
    notInstead: 'An overview, not the work instruction: work from the checklist with the same revision and digest.',
    cautions: [
      'Follow the rules of the plant, local codes and the qualified people on site.',
      'Each person hangs a lock of their own. Locked out is not proven dead: verify at the machine.',
      'If anything differs from what is printed here, stop, keep the locks on, and ask the coordinator.'
    ],
    sources: 'Energy sources',
    order: 'Order',
    isolateAt: 'Isolate at',
    call: 'Who to call',
    callName: 'Name',
    callNumber: 'Telephone',
    review: 'Hung by, date',
    leftOut: (what: string) => `Left out for want of room, see the checklist: ${what}.`,
    parts: { scope: 'scope', magnitudes: 'stored energies', restraints: 'restraints', order: 'order of the steps' }
  },
  tag: {
    /** After 29 CFR 1910.147(c)(5)(iii). */
    legends: ['Do not start', 'Do not open', 'Do not close', 'Do not energize', 'Do not operate'],
    owner: 'Lock and tag of (name)',
    department: 'Department, telephone',
    hung: 'Hung on (date, time)',
    expected: 'Expected to be off by',
    lock: 'Lock no.',
    onlyOwner: 'Only the person named here takes this tag and this lock off.',
    holds: 'What this device cuts off',
    safe: 'Safe position',
    tagAlone: 'A tag warns and holds nothing by itself: hang it with a lock, firmly, and never go round it.',
    fed: (names: string) => `feeds ${names}`,
    front: 'front',
    back: 'back',
    cut: 'Cut along the thin lines, fold at the dashed line, punch the hole at the ring.'
  },
  label: {
    device: 'Isolating device',
    isolates: 'Isolates',
    safe: 'Safe position',
    stored: 'stored energy stays, let it out and prove it dead',
    proof: 'Locked out is not proven dead.',
    procedure: (procedure: string, revision: number) => `Procedure ${procedure}, revision ${revision}`
  },
  sideBySide: {
    binding: (language: string) =>
      `What is entered is entered once. The text in ${language} is the one that was issued.`
  }
}
