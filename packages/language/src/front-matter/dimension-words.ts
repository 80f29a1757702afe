import type { Dimension } from '@lockwright/energy'

/** What each dimension is called in messages. */
export const dimensionWords: Readonly<Record<Dimension, string>> = {
  voltage: 'a voltage',
  current: 'a current',
  capacitance: 'a capacitance',
  resistance: 'a resistance',
  inductance: 'an inductance',
  charge: 'a charge',
  power: 'a power',
  energy: 'an energy',
  time: 'a time',
  pressure: 'a pressure',
  volume: 'a volume',
  length: 'a length',
  mass: 'a mass',
  inertia: 'a moment of inertia',
  'angular-speed': 'a speed of rotation',
  torque: 'a torque',
  force: 'a force',
  'force-per-length': 'a stiffness (force per length)',
  temperature: 'a temperature',
  area: 'an area',
  frequency: 'a frequency',
  flow: 'a flow',
  speed: 'a speed',
  number: 'a plain number'
}
