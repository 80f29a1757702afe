import { isStoreFailure, StoreFailure } from '../store/store-failure.js'
import { visible } from '../visible.js'

/** What went wrong at a database, in words. `name`: its address without the password. */
export function failureOf(error: unknown, name: string): StoreFailure {
  if (isStoreFailure(error)) return error
  const { code = '', message = '' } = error as { readonly code?: string; readonly message?: string }
  const [what, mend] = told(code)
  return new StoreFailure({
    id: 'store-failed',
    file: name,
    what: `${what}: ${visible(message)}${code === '' ? '' : ` (${code})`}.`,
    danger: 'What was handed in last is not on record there.',
    mend
  })
}

/** By the codes of PostgreSQL (appendix A of its manual), of Node, and those of our own triggers, LW001 and on. */
function told(code: string): readonly [what: string, mend: string] {
  if (code === '42501') {
    return [
      'The shared store does not let this user do that',
      'Have the owner of the database do it, or grant this user lockwright_runner (adds records) or lockwright_auditor (reads them).'
    ]
  }
  if (code === '3F000' || code === '42P01' || code === '42883') {
    return ['The database holds no records of ours', 'Have its owner run `lockwright store migrate` once.']
  }
  if (code.startsWith('28')) {
    return ['The shared store does not let this user in', 'Check the user and the password of the address.']
  }
  if (code.startsWith('LW')) {
    return ['The shared store refused it', 'Audit the journal where it was written, and compare it with another copy.']
  }
  if (code.startsWith('53') || code === '58030') {
    return [
      'The shared store has no room or no resources left',
      'Have its keeper look at disk and memory, then go on: what stands already is passed over.'
    ]
  }
  return [
    'The shared store could not be reached, or the connection broke',
    'Check the address and the network, then go on: what stands there already is passed over.'
  ]
}
