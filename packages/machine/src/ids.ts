import type { Branded } from '@lockwright/language'

/** One state of a machine. A step's own id, or `<copy>/<step>` where a section was copied. */
export type StateId = Branded<'state'>
/** A sign-off step seen as the permit that it gives. */
export type PermitId = Branded<'permit'>
/** A person of the roster. */
export type PersonId = Branded<'person'>
/** What is written on a padlock. */
export type LockId = Branded<'lock'>
