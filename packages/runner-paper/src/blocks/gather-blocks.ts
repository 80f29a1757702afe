import type { MachineItem } from '@lockwright/machine'
import type { Catalog } from '../catalog.js'
import type { FieldKind, FormField } from '../form/form-field.js'
import { numberedRows, tableFields } from '../form/table-fields.js'
import type { Sheet } from '../sheet/sheet.js'
import { say, stress } from '../text/say.js'
import type { Block, Cell } from './block.js'
import { table } from './table.js'

/** Tools, parts and protective equipment, each with the box that the step of gathering asks for. */
export function gatherBlocks({ machine, steps: printed }: Sheet, { parts, steps }: Catalog): readonly Block[] {
  const { items } = machine
  if (items.length === 0) return []
  const gather = printed.find(({ state }) => state.kind === 'gather')?.state
  const field = (kind: FieldKind, input: string, tip: string): FormField => ({
    owner: gather?.id ?? '#gather',
    step: gather?.step ?? null,
    kind,
    input,
    tip: `${parts.things}. ${tip}`
  })
  const ticks = (heading: string, kind: MachineItem['kind']): readonly Block[] => {
    const some = items.filter((item) => item.kind === kind)
    if (some.length === 0) return []
    return [
      {
        kind: 'ticks',
        heading,
        items: some.map((item) => ({
          text: [...stress(item.label), ...say(item.details.map((detail) => `; ${detail}`).join(''))],
          blanks: item.needsCalibration
            ? [
                {
                  label: steps.serial,
                  size: 'medium',
                  field: field('instrument', `instrument-${item.id}`, `${item.label}: ${steps.serial}`)
                },
                {
                  label: steps.due,
                  size: 'medium',
                  field: field('date', `instrument-${item.id}-due`, `${item.label}: ${steps.due}`)
                }
              ]
            : [],
          field: field('tick', `have-${item.id}`, item.label)
        }))
      }
    ]
  }
  return [
    { kind: 'heading', level: 2, text: parts.things },
    ...ticks(parts.tools, 'tool'),
    ...ticks(parts.spares, 'part'),
    ...ticks(parts.wear, 'wear')
  ]
}

/** A row for each role, and room for five more people: everybody under the lockout has locks of their own. */
export function peopleBlocks({ machine }: Sheet, { parts, heads }: Catalog): readonly Block[] {
  const roles = machine.roles.map((role): readonly Cell[] => [
    [stress(role.name), ...(role.holds.length === 0 ? [] : [say(role.holds.join(', '))])],
    [],
    [],
    [],
    []
  ])
  const more = Array.from({ length: 5 }, (): readonly Cell[] => [[], [], [], [], []])
  return [
    { kind: 'heading', level: 2, text: parts.people },
    table(
      [
        [heads.roleAndQualification, 27],
        [heads.name, 26],
        [heads.initials, 10],
        [heads.locksHung, 22],
        [heads.locksOff, 15]
      ],
      [...roles, ...more],
      true,
      tableFields(
        '#people',
        [
          null,
          { key: 'name', kind: 'name', head: heads.name },
          { key: 'initials', kind: 'initials', head: heads.initials },
          { key: 'locks', kind: 'lock', head: heads.locksHung },
          { key: 'off', kind: 'time', head: heads.locksOff }
        ],
        [
          ...machine.roles.map(({ id, name }) => ({ key: id, tip: `${parts.people}, ${name}` })),
          ...numberedRows(parts.people, more.length)
        ]
      )
    )
  ]
}
