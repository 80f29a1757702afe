import type { EnergyKind } from '../energy-parameters.js'
import { plainNumber } from '../format-number.js'
import { standardGravity } from '../formulas/mechanical-store.js'

/** Trivial: below every threshold known here. It never takes a source out of the procedure. */
export type Magnitude = 'trivial' | 'dangerous' | 'very-dangerous'

export interface EnergyThreshold {
  readonly kinds: readonly EnergyKind[]
  /** At and above this it is at least of this magnitude. */
  readonly joules: number
  readonly magnitude: Exclude<Magnitude, 'trivial'>
  readonly says: string
  readonly source: string
  /** `read`: at first or second hand. `memory`: not confirmed. `analogy`: of another kind of energy, no source of its own. */
  readonly provenance: 'read' | 'memory' | 'analogy'
}

const capacitorSheet = 'a safety sheet on the discharge of capacitors, author not shown'

/** Published energies at which a source begins to hurt and to kill, in rising order for each kind. */
export const energyThresholds: readonly EnergyThreshold[] = [
  {
    kinds: ['capacitor'],
    joules: 0.1,
    magnitude: 'dangerous',
    says: 'means of discharge are called for above 0.1 J, and 0.25 J is a heavy shock',
    source: capacitorSheet,
    provenance: 'read'
  },
  {
    kinds: ['capacitor'],
    joules: 10,
    magnitude: 'very-dangerous',
    says: 'a shock of more than 10 J can kill',
    source: capacitorSheet,
    provenance: 'read'
  },
  {
    kinds: ['magnet'],
    joules: 0.1,
    magnitude: 'dangerous',
    says: 'as for a capacitor: a field that breaks down is felt as a shock',
    source: capacitorSheet,
    provenance: 'analogy'
  },
  {
    kinds: ['magnet'],
    joules: 10,
    magnitude: 'very-dangerous',
    says: 'as for a capacitor: a shock of more than 10 J can kill',
    source: capacitorSheet,
    provenance: 'analogy'
  },
  {
    kinds: ['rotating', 'gravity', 'spring'],
    joules: 4,
    magnitude: 'dangerous',
    says: 'a power-driven guard may carry 4 J where nothing stops it on contact',
    source: 'ISO 14120',
    provenance: 'memory'
  },
  {
    kinds: ['rotating', 'gravity', 'spring'],
    joules: 79,
    magnitude: 'very-dangerous',
    says: 'a flying fragment of 79 J (58 ft·lbf) counts as hazardous to life',
    source: 'DoD 6055.9',
    provenance: 'memory'
  },
  {
    kinds: ['gas', 'liquid'],
    joules: 4,
    magnitude: 'dangerous',
    says: 'as for a moving guard: the energy goes into what flies off',
    source: 'ISO 14120',
    provenance: 'analogy'
  },
  {
    kinds: ['gas', 'liquid'],
    joules: 100_000,
    magnitude: 'very-dangerous',
    says: 'more than 100 kJ in a vessel is called highly hazardous',
    source: 'a university page on the stored energy of pressurised gas vessels',
    provenance: 'read'
  }
]

export type JudgedMagnitude =
  | { readonly kind: 'judged'; readonly magnitude: Magnitude; readonly threshold?: EnergyThreshold }
  /** No threshold in joules is published for this kind; `why` is a full sentence. */
  | { readonly kind: 'no-threshold'; readonly why: string }

/** How dangerous so many joules of this kind are; the threshold is the highest one that is reached. */
export function energyMagnitude(kind: EnergyKind, joules: number): JudgedMagnitude {
  const rows = energyThresholds.filter(({ kinds }) => kinds.includes(kind))
  if (rows.length === 0) return { kind: 'no-threshold', why: whyNone(kind) }
  const threshold = rows.findLast((row) => joules >= row.joules)
  return threshold === undefined
    ? { kind: 'judged', magnitude: 'trivial' }
    : { kind: 'judged', magnitude: threshold.magnitude, threshold }
}

function whyNone(kind: EnergyKind): string {
  switch (kind) {
    case 'thermal':
      return 'A hot surface is judged by its temperature, its material and the time of contact, not by its energy.'
    case 'battery':
      return 'A battery is judged by its voltage and by what it can drive through a short circuit, not by its energy.'
    case 'electrical':
      return 'A supply is judged by its voltage: it feeds as much energy as the fault lasts.'
    case 'capacitor':
    case 'magnet':
    case 'rotating':
    case 'gravity':
    case 'spring':
    case 'gas':
    case 'liquid':
    case 'other':
      return 'No threshold in joules is published for this kind of source.'
  }
}

/** Kilograms whose fall from one metre has the same energy. */
export function fallingMass(joules: number): number {
  return joules / standardGravity
}

/** A comparison that is felt: `as the fall of 548 kg (1210 lb) from 1 m`. */
export function feltAs(joules: number): string {
  const kilograms = fallingMass(joules)
  if (kilograms < 0.001) return 'less than the fall of 1 g from 1 m'
  if (kilograms < 1) return `as the fall of ${plainNumber(kilograms * 1000, 3)} g from 1 m`
  const pounds = kilograms / 0.45359237
  return kilograms < 10_000
    ? `as the fall of ${plainNumber(kilograms, 3)} kg (${plainNumber(pounds, 3)} lb) from 1 m`
    : `as the fall of ${plainNumber(kilograms / 1000, 3)} t from 1 m`
}
