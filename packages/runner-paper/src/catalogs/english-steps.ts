import { duration } from '../text/duration.js'

/** English wording on the steps, at stops, of ways on and of limits; a part of the catalog. */
export const englishSteps = {
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
    ifLive:
      'A reading at or above its limit is LIVE: stay back, leave every lock on, do not go on. Write it with the reason and what was read next under “Notes”.',
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
  }
}
