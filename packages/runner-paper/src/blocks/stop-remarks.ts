import type { Catalog } from '../catalog.js'
import type { LeftAtStop } from '../sheet/left-at-stops.js'
import type { Names } from './names.js'

/** What stays on where the work is broken off, and what must be locked before anybody leaves: never more than is so. */
export function stopRemarks(
  { locked, restrained, canBeOn }: LeftAtStop,
  names: Names,
  { stops }: Catalog
): readonly string[] {
  const always = names.points(locked.always)
  const sometimes = names.points(locked.sometimes)
  const never = names.points(locked.never)
  const held = names.restraints(restrained.always)
  const maybeHeld = names.restraints(restrained.sometimes)
  const nothing = always === '' && sometimes === ''
  return [
    stops.ends,
    always === '' ? '' : stops.stayOn(always),
    sometimes === '' ? '' : stops.mayHang(sometimes),
    never === '' ? '' : nothing ? stops.nothingLocked(never, canBeOn) : stops.notLocked(never),
    nothing && never === '' ? stops.noDevice : '',
    held === '' ? '' : stops.held(held),
    maybeHeld === '' ? '' : stops.maybeHeld(maybeHeld)
  ].filter((text) => text !== '')
}
