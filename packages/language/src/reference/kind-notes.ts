import type { ParameterName, RestraintKind, SourceKind } from '../front-matter.js'

export interface KindNote {
  readonly meaning: string
  /** A line of the front matter, with a name of its own. */
  readonly example: string
}

export const sourceKindNotes: Readonly<Record<SourceKind, KindNote>> = {
  electrical: {
    meaning: 'A supply. It takes `phases` or `conductors`; with neither nobody knows what to test.',
    example: 'mains: { kind: electrical, voltage: 400 V ac ± 10 %, phases: 3, at: [Q1] }'
  },
  capacitor: {
    meaning: 'Charge that stays behind the switch: a DC link, a capacitor bank.',
    example:
      'dc-link: { kind: capacitor, capacitance: 4 mF ± 20 %, voltage: 560 V dc, conductors: [DC+, DC-], bleed: 18 kΩ, label-wait: 10 min, fed-by: [mains] }'
  },
  battery: {
    meaning: 'Always charged: it is covered or taken away by a restraint, or the work near it is live.',
    example: 'ups: { kind: battery, voltage: 110 V dc, conductors: [B+, B-], capacity: 40 A h }'
  },
  magnet: {
    meaning: 'A coil whose current dies away through its resistance.',
    example: 'coil: { kind: magnet, inductance: 2 H, current: 10 A, resistance: 3 Ω, fed-by: [mains] }'
  },
  rotating: {
    meaning: 'Whatever runs on after the switch is off, or is turned by something else.',
    example: 'rotor: { kind: rotating, inertia: 1.2 kg m2, speed: 1480 rpm, coast-down: 4 min, fed-by: [mains] }'
  },
  gravity: {
    meaning: 'A load that can fall or swing. It is let out by lowering, or held.',
    example: 'platen: { kind: gravity, mass: 1800 kg, height: 1.6 m, fed-by: [mains] }'
  },
  spring: {
    meaning: 'Whatever is drawn, bent or pressed and comes back: springs, belts, membranes.',
    example: 'closing-spring: { kind: spring, rate: 20 N/mm, deflection: 30 mm, unfed: wound by hand }'
  },
  gas: {
    meaning: 'Compressed air, steam or another gas in a volume.',
    example: 'air: { kind: gas, volume: 50 L, pressure: 6 bar, bleed-bore: 4 mm, at: [Q1] }'
  },
  liquid: {
    meaning: 'A liquid under pressure; with `gas-volume` and `precharge` an accumulator.',
    example: 'oil: { kind: liquid, pressure: 180 bar, gas-volume: 10 L, precharge: 90 bar, at: [Q1] }'
  },
  thermal: {
    meaning: 'A surface that burns, by heat. Without `ambient` and `time-constant` no wait can be computed.',
    example:
      'platen-heat: { kind: thermal, temperature: 180 °C, ambient: 25 °C, time-constant: 40 min, fed-by: [mains] }'
  },
  other: {
    meaning: 'Anything else that can hurt, such as a laser. What it stores and whether it can be let out is declared.',
    example: 'light: { kind: other, describe: a laser, stores: false, relievable: false, at: [Q1] }'
  }
}

export const restraintKindNotes: Readonly<Record<RestraintKind, KindNote>> = {
  earth: {
    meaning: 'Earths conductors at the place of work; goes on only after the proof.',
    example: 'earths: { kind: earth, is: three-phase earthing set, holds: [mains] }'
  },
  short: {
    meaning: 'Joins conductors so that no charge comes back; goes on only after the proof.',
    example: 'short: { kind: short, is: shorting bar on the capacitors, holds: [dc-link] }'
  },
  block: { meaning: 'Stands under a load.', example: 'block: { kind: block, is: oak block, holds: [load] }' },
  pin: {
    meaning: 'Goes through moving and fixed parts.',
    example: 'pin: { kind: pin, is: shaft locking pin, holds: [load] }'
  },
  cover: {
    meaning: 'Keeps hands off a battery or a live part.',
    example: 'cover: { kind: cover, is: insulating cover over the terminals, holds: [dc-link] }'
  },
  blank: { meaning: 'Closes a pipe.', example: 'blank: { kind: blank, is: blank flange, holds: [load] }' },
  chain: {
    meaning: 'Holds a load or a wheel.',
    example: 'chain: { kind: chain, is: chain round the wheel, holds: [load] }'
  },
  other: {
    meaning: 'Anything else that holds energy back.',
    example: 'wedge: { kind: other, is: wedge, holds: [load] }'
  }
}

/** What each quantity of a source says. */
export const parameterMeanings: Readonly<Record<ParameterName, string>> = {
  voltage: 'the highest in service; `dc` for what a capacitor or battery holds',
  'fault-current': 'of a short circuit at this place',
  capacitance: 'of all that stays charged',
  bleed: 'across it, once it is isolated',
  'label-wait': 'what the label on the equipment asks to wait',
  'safe-below': 'the level below which it counts as gone; has a default for some kinds',
  capacity: 'what it holds when it is full',
  inductance: 'of the coil',
  current: 'the highest in service',
  resistance: 'through which the current dies away',
  inertia: 'of all that turns with it',
  speed: 'the highest speed in service',
  'coast-down': 'measured, to standstill',
  'friction-torque': 'what brakes it',
  mass: 'of the load',
  height: 'how far it can fall',
  rate: 'how stiff it is',
  deflection: 'how far it is drawn or pressed',
  preload: 'what it presses with at no deflection',
  volume: 'of the vessel or of the liquid',
  pressure: 'the highest in service; gauge pressure, unless the unit says otherwise',
  'bleed-bore': 'diameter of the opening that it is let out through',
  temperature: 'the highest in service; of a gas, that of the gas',
  'gas-volume': 'gas volume of the accumulator, empty of oil',
  precharge: 'gas pressure of the accumulator, empty of oil',
  ambient: 'what it cools down to; never assumed',
  'time-constant': 'in which the difference falls to 37 %'
}
