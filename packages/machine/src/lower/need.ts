import type { PointId, RestraintId, SourceId } from '@lockwright/language'
import type { About, Condition, Need, Thing } from '../condition.js'

const machineWide: About = { kind: 'machine' }

/** A need of one rung; what it is about has to be present for it to count. */
export function need(
  obligation: string,
  condition: Condition,
  about: About = machineWide,
  present: readonly Thing[] = []
): Need {
  const own: readonly Thing[] = about.kind === 'machine' || about.kind === 'axis' ? [] : [about]
  return { about, present: [...own, ...present], rungs: [{ obligation, condition }] }
}

export const source = (id: SourceId): Thing => ({ kind: 'source', id })
export const point = (id: PointId): Thing => ({ kind: 'point', id })
export const restraint = (id: RestraintId): Thing => ({ kind: 'restraint', id })
