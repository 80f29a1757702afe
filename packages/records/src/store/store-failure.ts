import type { RecordsFault } from '../result.js'

/**
 * The store could not do what it was asked: its disk, its connection or its rights failed. Nothing was half done. Told
 * apart by `name`, because a database store may come from another copy of this package.
 */
export class StoreFailure extends Error {
  override readonly name = 'StoreFailure'
  readonly fault: RecordsFault

  constructor(fault: Omit<RecordsFault, 'line'>) {
    super(`${fault.what} ${fault.mend}`)
    this.fault = { ...fault, line: null }
  }
}

export function isStoreFailure(error: unknown): error is StoreFailure {
  return error instanceof Error && error.name === 'StoreFailure' && 'fault' in error
}
