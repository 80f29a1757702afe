import { documentCases } from './conformance/document-cases.js'
import { hostileCases } from './conformance/hostile-cases.js'
import { logCases } from './conformance/log-cases.js'
import { runCases } from './conformance/run-cases.js'
import type { StoreCase } from './conformance/store-case.js'

/** Every promise of `Store`, as a check that throws where it is not kept. Whatever calls itself a store passes all of it. */
export const conformance: readonly StoreCase[] = [...runCases, ...hostileCases, ...documentCases, ...logCases]
