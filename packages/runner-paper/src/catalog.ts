import { energyWords } from './energy-words.js'
import { bars, quantities, restraintKinds, sourceKinds } from './kind-names.js'
import { duration } from './text/duration.js'

/**
 * The fixed wording of the sheet in English. Every other language is a second object of this type. The way
 * steps are worded follows IEC/IEEE 82079-1: imperative, limits as ranges.
 */
export const english = {
  language: 'en',
  sheet: 'Lockout and work sheet',
  draft: 'DRAFT',
  notIssued: 'not issued for use',
  issued: (by: string, at: string) => `Issued by ${by}, ${at}`,
  printed: (at: string) => `Printed ${at}`,
  forGeneration: (names: string) => `for ${names} only`,
  page: (number: number, count: number) => `Page ${number} of ${count}`,
  none: 'none',
  continued: 'continued',
  opens: { again: 'once more', continued: 'continued' },
  bars,
  sourceKinds,
  restraintKinds,
  quantities,
  signalWords: { danger: 'DANGER', warning: 'WARNING', caution: 'CAUTION', notice: 'NOTICE' },
  energy: energyWords,
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
    role: 'Role',
    qualification: 'Qualification',
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
    note: 'Note',
    outcome: 'Outcome'
  },
  /** In the cells of the tables on the first page. */
  tells: {
    fedBy: (names: string) => `fed by ${names}`,
    unfed: (why: string) => `nothing feeds it: ${why}`,
    guarded: (how: string) => `guarded: ${how}`,
    rebuilds: 'its energy can come back by itself',
    conductors: (names: string) => `conductors ${names}`,
    noDevice: 'no isolating device',
    safe: (position: string) => `safe: ${position}`,
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
  /** On the steps. */
  steps: {
    gate: 'gate',
    role: (name: string) => `Done by: ${name}`,
    wear: (names: string) => `Wear: ${names}`,
    using: (names: string) => `With: ${names}`,
    minutes: (minutes: number) => `Usually ${minutes} min`,
    again: 'Can come again: one row for each time. More than three times: take a new sheet and note it.',
    absent: (names: string) => `Not on this generation: ${names}.`,
    retake: 'Out of limits: measure again, and write it in the next blank.',
    retakeThenWay: (way: string) => `Out of limits in the last blank too: go on as told at “${way}”.`,
    retakeThenStop: 'Out of limits in the last blank too: do not go on, and ask the coordinator.',
    backFrom: (steps: string) => `Also done again when ${steps} sends you back here.`,
    onlyFrom: (steps: string) => `Only from ${steps}.`,
    gather: 'Everything under “Gather before the first lock” on the first pages is ticked and in good order.',
    lockPoint: (safe: string) => `put in the safe position (${safe}); lock and tag hung`,
    isolatePoint: (safe: string) => `put in the safe position (${safe}); no lock yet`,
    unlockPoint: 'own lock and tag taken off',
    energizePoint: 'switched back on',
    lockNumber: 'Lock no.',
    othersLock: 'Others under the lockout: their own locks too, see “People on this job”.',
    othersUnlock: 'Others take off their own locks: see “People on this job”.',
    tried: 'tried: nothing started, and the control is back in its off position',
    letOut: (names: string) => `${names}: let out as told`,
    byWhom: 'Name',
    restraintOn: 'is on',
    restraintOff: 'is off',
    lampDark: 'dark, as it must be',
    lampLit: 'lit, as it must be',
    lampNoProof: 'A lamp proves nothing: the verification comes later.',
    testerBefore: 'Tester works, tried before the test on',
    testerAfter: 'Tester works, tried after the test on',
    known: 'a known live source',
    trial: (name: string) => `${name}: does not move when tried`,
    told: 'told',
    acknowledge: 'read and understood',
    wait: (seconds: number) => `Wait at least ${duration(seconds)}`,
    started: 'Started',
    ends: 'Ends, not before',
    timer: (seconds: number) => `The steps that follow must be done within ${duration(seconds)}.`,
    deadline: 'Must be done by',
    powerOn: (names: string) => `POWER IS ON. Under test: ${names}.`,
    near: (names: string) => `Near: ${names}.`,
    apart: (names: string) => `Also on, kept out of reach: ${names}.`,
    why: (why: string) => `Why: ${why}`,
    permit: (steps: string) => `Only with the sign-off of ${steps}.`,
    leaves: (names: string) => `Stays on during this work: ${names}.`,
    identified: (axis: string, steps: string) => `Which ${axis} it is was found at ${steps}.`,
    knownBefore: 'If it was found before, go past this step.',
    serial: 'Instrument no.',
    due: 'Calibration due',
    readFrom: (from: string) => `Read from ${from}, hands off.`,
    signAs: (role: string) => `Signed by: ${role}`,
    tell: (who: string) => `Tell: ${who}`,
    left: 'Left in this condition',
    finish: 'Returned to service: every lock and restraint off, inspected, everybody clear.',
    picture: (alternate: string) => `Picture: ${alternate}`
  },
  /** Where the work is broken off. */
  stops: {
    ends: 'Work ends here.',
    stayOn: (points: string) => `The locks and tags on ${points} stay on. The equipment stays out of service.`,
    mayHang: (points: string) =>
      `Whether locks hang on ${points} depends on the way that led here: if locks hang, they stay on. Where none hangs, lock the device before you leave the equipment, or hand the equipment to the person in charge as the plant’s rules say.`,
    notLocked: (points: string) =>
      `No lock hangs on ${points}: lock it before you leave the equipment, or hand the equipment to the person in charge as the plant’s rules say.`,
    nothingLocked: (points: string, canBeOn: boolean) =>
      `Nothing is locked here${canBeOn ? ', and the equipment can be on' : ''}: lock ${points} before you leave the equipment, or hand it to the person in charge as the plant’s rules say.`,
    noDevice: 'Hand the equipment to the person in charge as the plant’s rules say.',
    held: (restraints: string) => `Stays in place: ${restraints}.`,
    maybeHeld: (restraints: string) => `Stays in place where it has been put on: ${restraints}.`
  },
  /** Where to go on. */
  ways: {
    goOn: (number: number) => `Go on with step ${number}`,
    goBack: (number: number) => `Go back to step ${number}`,
    inside: 'Within the limits',
    outside: 'Still outside the limits',
    inTime: 'Done in time',
    late: 'Time ran out before this was done',
    otherSheet: 'STOP. This sheet is not for it: take the sheet for that generation.',
    generation: (name: string, tell: string) => (tell === '' ? name : `${name} (${tell})`)
  },
  limits: {
    between: (min: string, max: string) => `${min} to ${max}`,
    atLeast: (min: string) => `at least ${min}`,
    atMost: (max: string) => `at most ${max}`,
    below: (below: string) => `below ${below}`,
    zero: (zero: string) => `${zero}, not above`,
    none: 'note what it reads'
  },
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

export type Catalog = typeof english
