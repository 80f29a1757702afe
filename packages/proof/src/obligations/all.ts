import type { Obligation } from '../obligation.js'
import { allReached } from './all-reached.js'
import { allReturned } from './all-returned.js'
import { branchesCover } from './branches-cover.js'
import { clearBeforeEnergy } from './clear-before-energy.js'
import { conductorsCovered } from './conductors-covered.js'
import { controlOrder } from './control-order.js'
import { deviceState } from './device-state.js'
import { gatheredFirst } from './gathered-first.js'
import { gaugeFits } from './gauge-fits.js'
import { glovesRated } from './gloves-rated.js'
import { groundAfterProof } from './ground-after-proof.js'
import { hardwareKnown } from './hardware-known.js'
import { inspectedBeforeEnergy } from './inspected-before-energy.js'
import { lampNoProof } from './lamp-no-proof.js'
import { leftOn } from './left-on.js'
import { livePermitted } from './live-permitted.js'
import { noDeadEnd } from './no-dead-end.js'
import { operateClosed } from './operate-closed.js'
import { proofQualified } from './proof-qualified.js'
import { rebuildRestrained } from './rebuild-restrained.js'
import { relieveIsolated } from './relieve-isolated.js'
import { relockAfterTest } from './relock-after-test.js'
import { removeClear } from './remove-clear.js'
import { restrainLocked } from './restrain-locked.js'
import { restraintsOff } from './restraints-off.js'
import { sourceCovered } from './source-covered.js'
import { stopSafe } from './stop-safe.js'
import { testerProven } from './tester-proven.js'
import { testerRated } from './tester-rated.js'
import { toldBeforeStart } from './told-before-start.js'
import { tryoutClear } from './tryout-clear.js'
import { tryoutDone } from './tryout-done.js'
import { voidProof } from './void-proof.js'
import { waitEnough } from './wait-enough.js'
import { workIsolated } from './work-isolated.js'
import { workProven } from './work-proven.js'
import { workReleased } from './work-released.js'

/** Every obligation that the proof checks, in the order of the contract. */
export const obligations: readonly Obligation[] = [
  workIsolated,
  workReleased,
  workProven,
  rebuildRestrained,
  controlOrder,
  relieveIsolated,
  restrainLocked,
  groundAfterProof,
  tryoutClear,
  tryoutDone,
  voidProof,
  lampNoProof,
  testerProven,
  conductorsCovered,
  testerRated,
  gaugeFits,
  glovesRated,
  proofQualified,
  waitEnough,
  livePermitted,
  leftOn,
  operateClosed,
  removeClear,
  inspectedBeforeEnergy,
  clearBeforeEnergy,
  restraintsOff,
  toldBeforeStart,
  relockAfterTest,
  deviceState,
  allReturned,
  stopSafe,
  hardwareKnown,
  branchesCover,
  noDeadEnd,
  allReached,
  sourceCovered,
  gatheredFirst
]
