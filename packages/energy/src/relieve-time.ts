import type { EnergyParameters } from './energy-parameters.js'
import { type FormulaInput, gather, storedVoltFactor } from './formula-input.js'

/** The longest time that a stored energy takes to fall to its safe level by itself. */
export type RelieveTime =
  | {
      readonly kind: 'computed'
      readonly seconds: number
      readonly formula: string
      /** The numbers that went in, each at the end of its tolerance that makes the time longest. */
      readonly inputs: readonly FormulaInput[]
      readonly source: string
    }
  /** Parameters that would have to be declared first; nothing is assumed in their place. */
  | { readonly kind: 'not-computable'; readonly missing: readonly string[] }
  /** Waiting never makes it safe; `why` is a full sentence. */
  | { readonly kind: 'not-decaying'; readonly why: string }

export function relieveTime(parameters: EnergyParameters): RelieveTime {
  switch (parameters.kind) {
    case 'capacitor':
      return capacitorTime(parameters)
    case 'magnet':
      return magnetTime(parameters)
    case 'rotating':
      return coastingTime(parameters)
    case 'thermal':
      return coolingTime(parameters)
    case 'gas':
    case 'liquid':
      return ventingTime(parameters)
    case 'electrical':
      return notDecaying('A supply stores nothing: it is dead once it is isolated, and live until then.')
    case 'battery':
      return notDecaying('A battery keeps its charge however long the wait is.')
    case 'gravity':
      return notDecaying('A raised load stays dangerous until it is lowered or held.')
    case 'spring':
      return notDecaying('A loaded spring stays loaded until it is let out or held.')
    case 'other':
      return { kind: 'not-computable', missing: ['a formula for this kind of source'] }
  }
}

function notDecaying(why: string): RelieveTime {
  return { kind: 'not-decaying', why }
}

/** Time for an exponential decay from one level to another; nothing to wait for where it is below already. */
function exponential(timeConstant: number, from: number, to: number): number {
  return from <= to ? 0 : timeConstant * Math.log(from / to)
}

function capacitorTime(parameters: EnergyParameters): RelieveTime {
  const needed = gather(parameters, {
    bleed: ['resistance', 'high'],
    capacitance: ['capacitance', 'high'],
    voltage: ['voltage', 'high'],
    'safe-below': ['voltage', 'low']
  })
  if (needed.kind === 'missing') return { kind: 'not-computable', missing: needed.names }
  const { bleed, capacitance, voltage } = needed.values
  const safe = needed.values['safe-below']
  if (!(safe > 0)) return notDecaying('A capacitor never falls to exactly 0 V: a safe level above that is needed.')
  const start = voltage * storedVoltFactor(parameters.quantities['voltage'])
  return {
    kind: 'computed',
    seconds: exponential(bleed * capacitance, start, safe),
    formula: start > voltage ? 't = R·C·ln(√2·V0/V)' : 't = R·C·ln(V0/V)',
    inputs: needed.inputs,
    source: 'RC discharge: OpenStax College Physics, module m42363'
  }
}

function magnetTime(parameters: EnergyParameters): RelieveTime {
  // A safe level is known for a magnet only where it is given as a current: there is no default.
  const needed = gather(parameters, {
    inductance: ['inductance', 'high'],
    resistance: ['resistance', 'low'],
    current: ['current', 'high'],
    'safe-below': ['current', 'low']
  })
  if (needed.kind === 'missing') return { kind: 'not-computable', missing: needed.names }
  const { inductance, resistance, current } = needed.values
  const safe = needed.values['safe-below']
  if (!(safe > 0)) return notDecaying('The current never falls to exactly 0 A: a safe level above that is needed.')
  if (!(resistance > 0)) return notDecaying('With no resistance in its circuit the current does not fall.')
  return {
    kind: 'computed',
    seconds: exponential(inductance / resistance, current, safe),
    formula: 't = (L/R)·ln(I0/I)',
    inputs: needed.inputs,
    source: 'RL decay: OpenStax College Physics, module m42425'
  }
}

function coastingTime(parameters: EnergyParameters): RelieveTime {
  const measured = gather(parameters, { 'coast-down': ['time', 'high'] })
  const byFriction = frictionTime(parameters)
  if (measured.kind === 'missing') return byFriction
  const seconds = measured.values['coast-down']
  // Where both are known the longer one counts: a maker's figure may be of a machine with new bearings.
  if (byFriction.kind === 'computed' && byFriction.seconds > seconds) return byFriction
  return {
    kind: 'computed',
    seconds,
    formula: 't = coast-down as declared',
    inputs: measured.inputs,
    source: 'declared for this machine'
  }
}

function frictionTime(parameters: EnergyParameters): RelieveTime {
  const needed = gather(parameters, {
    inertia: ['inertia', 'high'],
    speed: ['angular-speed', 'high'],
    'friction-torque': ['torque', 'low'],
    'safe-below': ['angular-speed', 'low']
  })
  if (needed.kind === 'missing') return { kind: 'not-computable', missing: needed.names }
  const { inertia, speed } = needed.values
  const torque = needed.values['friction-torque']
  if (!(torque > 0)) return notDecaying('With no friction the rotor does not slow down.')
  return {
    kind: 'computed',
    seconds: (inertia * Math.max(0, speed - needed.values['safe-below'])) / torque,
    formula: 't = I·(ω0 − ω)/M, with a constant friction torque',
    inputs: needed.inputs,
    source: 'rotational dynamics: OpenStax College Physics, module m42180'
  }
}

function coolingTime(parameters: EnergyParameters): RelieveTime {
  const needed = gather(parameters, {
    temperature: ['temperature', 'high'],
    ambient: ['temperature', 'high'],
    'time-constant': ['time', 'high'],
    'safe-below': ['temperature', 'low']
  })
  if (needed.kind === 'missing') return { kind: 'not-computable', missing: needed.names }
  const { temperature, ambient } = needed.values
  const safe = needed.values['safe-below']
  if (temperature > safe && ambient >= safe) {
    return notDecaying('It never cools to the safe level: the surroundings may be as hot as that.')
  }
  return {
    kind: 'computed',
    seconds:
      temperature <= safe ? 0 : exponential(needed.values['time-constant'], temperature - ambient, safe - ambient),
    formula: 't = τ·ln((T0 − Ta)/(T − Ta))',
    inputs: needed.inputs,
    source: "Newton's law of cooling: OpenStax Calculus, module m53651"
  }
}

/**
 * How fast a vessel vents hangs on the discharge coefficient of its outlet, which no parameter of the language
 * gives; so a label or a written wait, and a gauge, are needed.
 */
function ventingTime(parameters: EnergyParameters): RelieveTime {
  const wanted = parameters.kind === 'gas' ? ['bleed-bore', 'temperature'] : ['volume', 'bleed-bore']
  const absent = wanted.filter((name) => parameters.quantities[name] === undefined)
  return { kind: 'not-computable', missing: [...absent, 'discharge coefficient of the outlet'] }
}
