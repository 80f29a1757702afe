import type { FrontMatter, Item } from '@lockwright/language'
import type { Feeding } from './feeding.js'

/** What the meaning of a step depends on beside the step itself. */
export interface Context {
  readonly head: FrontMatter
  readonly feeding: Feeding
  readonly items: ReadonlyMap<string, Item>
}
