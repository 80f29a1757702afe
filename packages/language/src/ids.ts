declare const brand: unique symbol

/** A string that was checked to be an id of one sort; ids of different sorts do not mix. */
export type Branded<Sort extends string> = string & { readonly [brand]: Sort }

export type SourceId = Branded<'source'>
export type PointId = Branded<'point'>
export type RestraintId = Branded<'restraint'>
export type RoleId = Branded<'role'>
export type AxisId = Branded<'axis'>
/** One generation on an axis, e.g. `series-s` on `cabinet`. */
export type AxisValueId = Branded<'axis value'>
/** A tool, part or piece of protective equipment. */
export type ItemId = Branded<'item'>
/** A step as written. Given with `#id`, or made: `<section>.<n>` (authors' ids hold no dot). */
export type StepId = Branded<'step'>
/** A heading's slug. */
export type SectionId = Branded<'section'>
