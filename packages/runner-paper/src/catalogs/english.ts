import { duration } from '../text/duration.js'
import { moment } from '../text/moment.js'
import { englishEnergy } from './english-energy.js'
import { englishForm } from './english-form.js'
import { englishHanging } from './english-hanging.js'
import { englishKinds } from './english-kinds.js'
import { englishMade } from './english-made.js'
import { englishSteps } from './english-steps.js'
import { numbersOf } from './numbers-of.js'

/**
 * The fixed wording of the sheet in English. Every other language is a second object of this type. The way
 * steps are worded follows IEC/IEEE 82079-1: imperative, limits as ranges.
 */
export const english = {
  language: 'en',
  ...numbersOf('en-GB'),
  /** RFC 3339 to what is printed, in UTC; other text stays. */
  moment,
  sheet: 'Lockout and work sheet',
  draft: 'DRAFT',
  notIssued: 'not issued for use',
  issued: (by: string, at: string) => `Issued by ${by}, ${at}`,
  printed: (at: string) => `Printed ${at}`,
  forGeneration: (names: string) => `for ${names} only`,
  page: (number: number, count: number) => `Page ${number} of ${count}`,
  /** At the edge of each page. */
  running: {
    revision: (procedure: string, revision: number) => `${procedure}, revision ${revision}`,
    digest: (procedure: string, revision: number, digest: string) =>
      `${procedure} revision ${revision}, digest ${digest}`
  },
  none: 'none',
  continued: 'continued',
  opens: { again: 'once more', continued: 'continued' },
  ...englishKinds,
  signalWords: { danger: 'DANGER', warning: 'WARNING', caution: 'CAUTION', notice: 'NOTICE' },
  energy: englishEnergy,
  form: englishForm,
  made: englishMade,
  hanging: englishHanging,
  orders: {
    general: 'lock, then release stored energy (29 CFR 1910.147(d))',
    electrical: 'release stored energy, then lock (29 CFR 1910.333(b)(2))'
  },
  facts: {
    equipment: 'Equipment',
    place: 'Place',
    scope: 'Scope',
    procedure: 'Procedure',
    revision: 'Revision',
    generation: 'Generation',
    digest: 'Digest (SHA-256)',
    order: 'Order of work',
    issue: 'Issue state',
    noStartControl: 'No start control to try',
    names: 'Step names',
    namesTell: 'In small type behind each title: what “lockwright enter” asks for.'
  },
  parts: {
    sources: 'Energy sources',
    leftOn: 'Stays on during the work',
    points: 'Isolating devices',
    restraints: 'Restraints',
    things: 'Gather before the first lock',
    tools: 'Tools and instruments',
    spares: 'Parts',
    wear: 'Protective equipment',
    people: 'People on this job',
    waivers: 'Waived obligations',
    cautions: 'Before anything else',
    legend: 'Shapes on this sheet',
    signatures: 'Sign-offs',
    deviations: 'Deviations',
    notes: 'Notes',
    proof: 'What was checked'
  },
  heads: {
    source: 'Source and magnitude',
    isolate: 'Isolated at (safe position)',
    release: 'Let out or held; wait',
    verify: 'Verified dead',
    point: 'Device',
    where: 'Place',
    safe: 'Safe position',
    lock: 'Lock number',
    name: 'Name',
    restraint: 'Restraint',
    holds: 'Holds',
    on: 'Goes on',
    off: 'Comes off',
    why: 'Why',
    permit: 'Allowed by',
    qualification: 'Qualification',
    roleAndQualification: 'Role, qualification',
    nameAndTime: 'Name, time',
    initials: 'Initials',
    locksHung: 'Locks hung, numbers',
    locksOff: 'Locks off, time',
    time: 'Time',
    obligation: 'Obligation',
    by: 'By',
    step: 'Step',
    meaning: 'Meaning of the signature',
    signature: 'Signature',
    date: 'Date, time',
    deviation: 'What was done differently, and why',
    qualified: 'Qualified person, signature',
    note: 'Note'
  },
  /** In the cells of the tables on the first page. */
  tells: {
    fedBy: (names: string) => `fed by ${names}`,
    unfed: (why: string) => `nothing feeds it: ${why}`,
    guarded: (how: string) => `guarded: ${how}`,
    rebuilds: 'its energy can come back by itself',
    conductors: (names: string) => `conductors ${names}`,
    noDevice: 'no isolating device',
    letOut: (steps: string) => `let out at ${steps}`,
    heldBy: (names: string) => `held by ${names}`,
    storesNothing: 'stores nothing',
    noRelease: 'not let out on this sheet',
    wait: (seconds: number) => `wait ${duration(seconds)}`,
    because: {
      written: 'as the procedure says',
      label: 'as the label says',
      computed: 'as computed: slowest case down to the safe level'
    },
    verified: (steps: string) => `at ${steps}`,
    withWhat: (names: string) => `with ${names}`,
    trial: 'by trying to move it',
    staysOn: 'stays on during the work',
    notVerified: 'not verified on this sheet',
    steps: (numbers: readonly number[]) => `step${numbers.length === 1 ? '' : 's'} ${numbers.join(', ')}`,
    step: (number: number) => `step ${number}`,
    normalOff: 'normally off',
    needsPower: (why: string) => `comes out only with power back: ${why}`,
    rails: (names: string) => `${names} only`
  },
  ...englishSteps,
  cautions: [
    'Follow the rules of the plant, the local codes and the qualified people on site. This sheet replaces none of them.',
    'Each person who works under this lockout hangs a lock of their own first, and is the one who takes it off.',
    'If anything differs from what is printed here, stop, keep the locks on, and ask the coordinator.',
    'The procedure was checked for the obligations listed on the last page. That is not a claim that the work is safe.'
  ],
  legend: {
    gate: 'A gate: done, repeated, or the work stops. Never skipped, never changed.',
    step: 'A plain step.',
    box: 'Tick when done.',
    circle: 'Tick the one that applies.',
    rail: 'For the generation named beside it only.',
    way: 'Go on with the step named.'
  },
  closing: {
    deviation: 'A gate is never done differently: it is done, repeated, or the work stops.',
    claim:
      'This was checked of the procedure as it is written. It is no claim that the work is safe: the rules of the plant, the local codes and qualified people decide.',
    completed: 'Sheet completed',
    entered: 'Entered into the record',
    proof: (procedure: string, revision: number, digest: string) =>
      `Procedure ${procedure}, revision ${revision}, digest ${digest}.`,
    sizes: (states: number, configurations: number) =>
      `Explored: ${states} machine states, ${configurations} reachable configurations of machine and energies.`,
    proven: 'Obligations that hold in every reachable configuration',
    waived: 'Obligations that were waived',
    notArising: 'Obligations that do not arise in this procedure',
    noReport:
      'Only a procedure whose every obligation holds or was waived as shown can be printed. lockwright check tells the list.',
    missing: (codes: string) =>
      `The fonts of this sheet cannot show ${codes}; each is printed as a replacement sign. Read the procedure itself there.`
  }
}
