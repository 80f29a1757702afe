import type { RestraintKind, SourceKind } from '@lockwright/language'
import type { StateKind } from '@lockwright/machine'

const sourceKinds: Readonly<Record<SourceKind, string>> = {
  electrical: 'electrical supply',
  capacitor: 'charged capacitor',
  battery: 'battery',
  magnet: 'magnetic field',
  rotating: 'rotating mass',
  gravity: 'raised load',
  spring: 'spring',
  gas: 'gas under pressure',
  liquid: 'liquid under pressure',
  thermal: 'heat or cold',
  other: 'other energy'
}

const restraintKinds: Readonly<Record<RestraintKind, string>> = {
  earth: 'earth',
  short: 'short circuit',
  block: 'block',
  pin: 'pin',
  cover: 'cover',
  blank: 'blank',
  chain: 'chain',
  other: 'other restraint'
}

/** What stands on the bar of a step. */
const bars: Readonly<Record<StateKind, string>> = {
  gather: 'GATHER',
  notify: 'TELL',
  operate: 'OPERATE',
  look: 'LOOK, HANDS OFF',
  live: 'TEST WITH POWER ON',
  shutdown: 'SHUT DOWN',
  identify: 'WHICH WAY',
  isolate: 'SWITCH OFF',
  lock: 'LOCK',
  relieve: 'LET ENERGY OUT',
  restrain: 'HOLD',
  lamp: 'LOOK, NOT A PROOF',
  prove: 'PROVE DEAD',
  tryout: 'TRY TO START',
  signoff: 'SIGN',
  work: 'WORK',
  measure: 'MEASURE',
  wait: 'WAIT',
  inspect: 'INSPECT',
  clear: 'STAND CLEAR',
  remove: 'TAKE OFF',
  unlock: 'UNLOCK',
  energize: 'SWITCH ON',
  stop: 'STOP HERE',
  finish: 'BACK IN SERVICE',
  ask: 'WHICH WAY',
  notice: 'READ',
  branch: 'WHICH WAY',
  timer: 'CLOCK STARTS',
  back: 'GO BACK'
}

/** How a source's parameter is called beside its value; those that need no name are empty. */
const quantities: Readonly<Record<string, string>> = {
  voltage: '',
  pressure: '',
  speed: '',
  temperature: '',
  capacitance: '',
  inertia: '',
  mass: '',
  bleed: 'bleed',
  'label-wait': 'wait on the label',
  'safe-below': 'safe below',
  'fault-current': 'fault current',
  'coast-down': 'coasts down in',
  'friction-torque': 'friction',
  'gas-volume': 'gas volume',
  'bleed-bore': 'bleed bore',
  'time-constant': 'time constant'
}

/** English names of what the language has kinds of; a part of the catalog. */
export const englishKinds = { sourceKinds, restraintKinds, bars, quantities }
