import type { Store } from '../store.js'

/** A store to be tried: empty, and nobody else's. */
export interface StoreOnTrial {
  readonly store: Store
  /** Another way to the same records, as a second process would have it. */
  again(): Promise<Store>
}

/** One promise of `Store`. `check` throws an assertion where it is not kept. */
export interface StoreCase {
  readonly promise: string
  check(trial: StoreOnTrial): Promise<void>
}
