import type { MachinePoint, MachineSource } from '@lockwright/machine'
import { namesOf } from '../blocks/names.js'
import type { Catalog } from '../catalog.js'
import type { HangingOptions } from '../placard/hanging-options.js'
import type { Sheet } from '../sheet/sheet.js'
import { unbroken } from '../text/say.js'

/** What a tag and a label say of one isolating device; plain text. */
export interface DeviceFacts {
  readonly id: string
  readonly equipment: string
  readonly place: string
  readonly is: string
  readonly where: string
  readonly safe: string
  /** Each source that it cuts off, with its magnitude, and what that source feeds. */
  readonly cuts: readonly string[]
  /** Sources behind it that keep energy once it is off, by name. */
  readonly stored: readonly string[]
  readonly procedure: string
  readonly code: string
}

/** The isolating devices that are on this sheet, in the order of the front matter. */
export function deviceFacts(sheet: Sheet, { digest }: HangingOptions, catalog: Catalog): readonly DeviceFacts[] {
  const { machine } = sheet
  const names = namesOf(sheet, catalog)
  const present = machine.sources.filter(({ id }) => names.present({ kind: 'source', id }))
  return machine.points
    .filter(({ id }) => names.present({ kind: 'point', id }))
    .map((point) => {
      const own = present.filter(({ at }) => at.includes(point.id))
      const behind = fedBy(own, present)
      return {
        id: point.id,
        equipment: `${machine.equipment.tag}  ${machine.equipment.name}`,
        place: machine.equipment.place,
        is: `${point.is}${names.suffix(point.only)}`,
        where: point.where,
        safe: point.safe,
        cuts: own.map((source) => cutText(source, behind, catalog)),
        stored: [...own, ...behind].filter(({ store }) => store !== 'none').map(({ id }) => id),
        procedure: catalog.hanging.label.procedure(machine.procedure, machine.revision),
        code: codeOf(point, machine.procedure, machine.revision, digest)
      }
    })
}

/** All that the sources feed, also at second hand. */
function fedBy(own: readonly MachineSource[], all: readonly MachineSource[]): readonly MachineSource[] {
  const found = new Set(own)
  for (let before = -1; before !== found.size; ) {
    before = found.size
    for (const source of all) {
      if (source.fedBy.some((id) => [...found].some((each) => each.id === id))) found.add(source)
    }
  }
  return [...found].filter((source) => !own.includes(source))
}

function cutText(source: MachineSource, behind: readonly MachineSource[], catalog: Catalog): string {
  const { sourceKinds, hanging } = catalog
  const main = ['voltage', 'pressure', 'temperature', 'speed'].flatMap((name) => {
    const written = source.quantities[name]?.written
    return written === undefined ? [] : [unbroken(written)]
  })
  const fed = behind.filter(({ fedBy }) => fedBy.includes(source.id)).map(({ id }) => id)
  return [
    `${source.id}: ${[source.describe ?? sourceKinds[source.kind], ...main].join(', ')}`,
    ...(fed.length === 0 ? [] : [hanging.tag.fed(fed.join(', '))])
  ].join('; ')
}

function codeOf({ id }: MachinePoint, procedure: string, revision: number, digest: string): string {
  return `LOCKWRIGHT/1 ${procedure} r${revision} sha256:${digest} at:${id}`
}
