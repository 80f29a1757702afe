import type { FaultId } from '../../fault-dangers.js'
import { directiveMends } from './directive-mends.js'
import type { FaultMend } from './fault-mend.js'
import { frontMatterMends } from './front-matter-mends.js'
import { textMends } from './text-mends.js'

export type { FaultMend } from './fault-mend.js'

/** For every fault that the language knows: how it is mended, shown where it can be. */
export const faultMends: Readonly<Record<FaultId, FaultMend>> = { ...textMends, ...directiveMends, ...frontMatterMends }
