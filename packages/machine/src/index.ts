export { isSameLock, lockNumber } from './advance/lock-number.js'
export { advance } from './advance.js'
export { askedInputs, withinLimits } from './asked.js'
export * from './condition.js'
export { canonical, digestOf, skeletonOf } from './digest.js'
export * from './event.js'
export * from './ids.js'
export { pack, statuses, unpack } from './ledger.js'
export * from './machine.js'
export {
  firstLedger,
  isPresent,
  LOCKED,
  type Model,
  modelOf,
  OFF,
  ON,
  type PackedLedger,
  sourcePresent,
  stateOf
} from './model.js'
export { type Derived, derive, emptyDerived } from './settle.js'
export * from './snapshot.js'
export { start } from './start.js'
export * from './state.js'
export { doesNothing, doStep, meets, passedBy, type Unmet } from './step.js'
export { type Standing, standingOf, tellLedger } from './tell-ledger.js'
export { writtenWaits } from './written-waits.js'
