import {
  dischargeTrap,
  energySheet,
  formatDuration,
  relieveTime,
  safeBelow,
  sourceCalculations,
  touchThreshold
} from '@lockwright/energy'
import type { Diagnostic, Procedure } from '@lockwright/language'
import { joined } from '../vocabulary.js'

type Source = Procedure['head']['sources'][number]

/** What the figures of an energy source say against each other, or leave in doubt. The verdict does not rest on it. */
export function energyAdvice({ head }: Pick<Procedure, 'head'>): readonly Diagnostic[] {
  return head.sources.flatMap((source): readonly Diagnostic[] => {
    switch (source.kind) {
      case 'capacitor':
        return [...labelTooShort(source), ...labelAlone(source)]
      case 'magnet':
      case 'gas':
      case 'liquid':
        return labelTooShort(source)
      case 'rotating':
        return [...labelTooShort(source), ...coastDownDoubtful(source)]
      case 'spring':
        return preloadDoubtful(source)
      case 'thermal':
        return [...labelTooShort(source), ...safeLevelBurns(source)]
      case 'electrical':
      case 'battery':
      case 'gravity':
      case 'other':
        return []
    }
  })
}

/** The label and the parameters cannot both be right. */
function labelTooShort(source: Source): readonly Diagnostic[] {
  const label = source.quantities['label-wait']
  const computed = relieveTime(source)
  if (label === undefined || computed.kind !== 'computed' || label.interval.high >= computed.seconds) return []
  return [
    {
      ...warningAt(source, 'label-too-short'),
      what: `The label of \`${source.id}\` asks for a wait of ${label.written}; what is declared takes up to ${formatDuration(computed.seconds)}.`,
      danger: 'A label that is too short is opened by: it may belong to other parts than those that are fitted.',
      mend: 'Compare the plates with what is declared, and the label with both. Until then the longer time is asked for by itself.'
    }
  ]
}

/** A label's time may be the discharge time of a standard, which ends above the safe level. */
function labelAlone(source: Source): readonly Diagnostic[] {
  const { voltage } = source.quantities
  const computed = relieveTime(source)
  const safe = safeBelow(source)
  if (source.quantities['label-wait'] === undefined || computed.kind !== 'not-computable') return []
  const trap =
    voltage === undefined || safe === undefined ? undefined : dischargeTrap(voltage.interval.high, safe.interval.low)
  if (trap === undefined) return []
  return [
    {
      ...adviceAt(source, 'label-alone'),
      what: `The wait for \`${source.id}\` rests on its label alone. ${trap}`,
      danger: 'Whoever trusts the time on the label may meet what the standard allows to stay.',
      mend: `Declare ${joined(computed.missing.map((name) => `\`${name}\``))}, so that the time down to the safe level is computed; the proof by measurement stays as it is.`
    }
  ]
}

/** A coast-down and a friction torque that no values within their tolerances bring together. */
function coastDownDoubtful(source: Source): readonly Diagnostic[] {
  const declared = source.quantities['coast-down']
  const { time, further } = sourceCalculations(source)
  const byFriction = [time, ...further].flatMap((outcome) =>
    outcome.kind === 'computed' && outcome.calculation.id === 'friction-time' ? [outcome.calculation.result] : []
  )[0]
  if (declared === undefined || byFriction === undefined) return []
  if (declared.interval.low <= byFriction.high && byFriction.low <= declared.interval.high) return []
  return [
    {
      ...warningAt(source, 'coast-down-doubtful'),
      what: `\`${source.id}\` is said to stand still after ${declared.written}; its inertia, speed and friction torque give ${formatDuration(byFriction.low)} to ${formatDuration(byFriction.high)}.`,
      danger: 'One of these values is wrong: the rotor may turn for longer than anybody expects.',
      mend: 'Measure the coast-down again, or give each value the tolerance that it really has. Until then the longer time counts.'
    }
  ]
}

function preloadDoubtful(source: Source): readonly Diagnostic[] {
  return energySheet([source]).entries.flatMap(({ advice }) =>
    advice.map((sentence) => ({
      ...warningAt(source, 'preload-doubtful'),
      what: `\`${source.id}\`: ${sentence}`,
      danger: 'The spring holds more than the sheet says.',
      mend: 'Give the deflection from the unloaded length, or take the preload from the plate again.'
    }))
  )
}

/** Safe enough by the declared level, and hot enough to burn. */
function safeLevelBurns(source: Source): readonly Diagnostic[] {
  const found = touchThreshold(source.surface, source.contact)
  const safe = safeBelow(source)
  if (found.kind !== 'found' || safe === undefined || safe.interval.high <= found.celsius + 273.15) return []
  return [
    {
      ...warningAt(source, 'safe-level-burns'),
      what: `\`${source.id}\` counts as safe below ${safe.written}; ${found.material} touched for up to ${formatDuration(found.seconds)} burns from ${found.celsius} °C (${found.source}).`,
      danger: 'Skin burns on a surface that the procedure calls safe.',
      mend: 'Lower `safe-below`, or say in `contact` how short the touch really is.'
    }
  ]
}

function warningAt(source: Source, id: string): Omit<Diagnostic, 'what' | 'danger' | 'mend'> {
  return { id, severity: 'warning', place: source.place, related: [], path: [] }
}

function adviceAt(source: Source, id: string): Omit<Diagnostic, 'what' | 'danger' | 'mend'> {
  return { ...warningAt(source, id), severity: 'advice' }
}
