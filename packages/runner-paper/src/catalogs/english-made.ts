import type { StateKind } from '@lockwright/machine'

/** `a`, `a and b`, `a, b and c`. */
const list = (names: readonly string[]): string =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`

/** What stands before the author's label in a made title; empty where the title is made of the things alone. */
const before: Readonly<Partial<Record<StateKind, string>>> = {
  notify: 'Tell',
  operate: 'Operate:',
  look: 'Look:',
  live: 'Test with power on:',
  shutdown: 'Shut down:',
  tryout: 'Try to start:',
  signoff: 'Sign:',
  work: 'Work:',
  measure: 'Measure',
  wait: 'Wait:',
  inspect: 'Inspect:',
  clear: 'Clear:',
  stop: 'Stop:'
}

/** English wording of what the compiler makes, word for word as it makes it; a part of the catalog. */
export const englishMade = {
  before,
  /** A step whose author gave no label. */
  bare: {
    notify: 'Tell the people affected',
    operate: 'Operate by the normal controls',
    look: 'Look, hands off',
    shutdown: 'Shut down by the normal controls',
    tryout: 'Try the start control, then back to off',
    work: 'Work: hands on',
    measure: 'Measure',
    wait: 'Wait',
    inspect: 'Inspect: tools out, guards back',
    clear: 'Clear everybody from the machine',
    stop: 'Stop work here',
    finish: 'Return to service',
    gather: 'Gather the tools, parts and protective equipment',
    notice: 'Read before going on',
    remedies: 'Try the remedies in order'
  },
  titles: {
    live: (names: readonly string[]) => `Test with power on near ${list(names)}`,
    identify: (axis: string) => `Identify the ${axis}`,
    isolate: (names: readonly string[]) => `Put ${list(names)} in the safe position`,
    lock: (names: readonly string[]) => `Lock ${list(names)}`,
    relieve: (names: readonly string[]) => `Let the energy out of ${list(names)}`,
    restrain: (names: readonly string[]) => `Put on ${list(names)}`,
    lamp: (names: readonly string[], expect: 'dark' | 'lit') => `Look at the lamp of ${list(names)}: ${expect}`,
    prove: (names: readonly string[]) => `Prove ${list(names)} dead`,
    trial: (names: readonly string[]) => `Prove ${list(names)} dead by trial`,
    sign: (role: string) => `Sign as ${role}`,
    remove: (names: readonly string[]) => `Take off ${list(names)}`,
    /** With the restraints named as what they are, not by their ids. */
    putOn: (names: readonly string[]) => `Put on the ${list(names)}`,
    takeOff: (names: readonly string[]) => `Take off the ${list(names)}`,
    unlock: (names: readonly string[]) => `Unlock ${list(names)}`,
    energize: (names: readonly string[]) => `Switch on ${list(names)}`,
    branch: (axis: string) => `By the ${axis}`,
    only: (values: string) => `For ${values} only`,
    within: (seconds: number) => `Within ${seconds} s`,
    back: (to: string) => `Go back to ${to}`
  },
  yes: 'Yes',
  no: 'No',
  remedy: (number: string, count: string, label: string) => `Remedy ${number} of ${count}: ${label}`,
  /** The two ends of a reading. */
  pair: (first: string, second: string) => `${first} to ${second}`,
  earth: 'earth',
  details: {
    measures: (what: string) => `measures ${what}`,
    rated: (volts: string) => `rated ${volts}`,
    category: (category: string) => `category ${category}`,
    range: (low: string, high: string) => `range ${low} to ${high}`,
    size: (size: string) => `size ${size}`,
    torque: (torque: string) => `torque ${torque}`,
    calibration: 'in calibration',
    number: (number: string) => `number: ${number}`,
    quantity: (quantity: string) => `quantity: ${quantity}`,
    glove: (glove: string) => `class ${glove}`
  },
  /** What an instrument measures, by the word of the language. */
  measured: {
    voltage: 'voltage',
    pressure: 'pressure',
    speed: 'speed',
    temperature: 'temperature',
    current: 'current'
  } as Readonly<Record<string, string>>
}
