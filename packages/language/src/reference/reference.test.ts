import { describe, expect, it } from 'vitest'
import { DIRECTIVES } from '../directives.js'
import { type FaultId, faultDangers } from '../fault-dangers.js'
import {
  axisKeys,
  axisValueKeys,
  leftOnKeys,
  pointKeys,
  restraintKeys,
  restraintKinds,
  roleKeys,
  waiverKeys
} from '../front-matter/read-declarations.js'
import { equipmentKeys, optionalKeys, requiredKeys } from '../front-matter/read-front-matter.js'
import { sourceKeys } from '../front-matter/read-sources.js'
import { parameterNames, sourceKindNames } from '../front-matter/source-kinds.js'
import { parseProcedure } from '../parse-procedure.js'
import { directiveNotes } from './directive-notes.js'
import { faultMends } from './fault-mends/index.js'
import { frontMatterKeys, type KeyOwner } from './front-matter-keys.js'
import { withEntry, withSteps } from './host.fixture.js'
import { restraintKindNotes, sourceKindNotes } from './kind-notes.js'

function faultsIn(text: string): readonly string[] {
  const result = parseProcedure({ file: 'example.md', text })
  return result.ok ? [] : result.diagnostics.map(({ id, place, what }) => `${id} ${place.start.line} ${what}`)
}

function foundIn(text: string): readonly string[] {
  const result = parseProcedure({ file: 'example.md', text })
  return (result.ok ? result.warnings : result.diagnostics).map(({ id }) => id)
}

describe('the notes on directives', () => {
  it('are on every directive, and on nothing else', () => {
    expect(Object.keys(directiveNotes).sort()).toEqual(DIRECTIVES.map(({ name }) => name).sort())
  })

  it.each(DIRECTIVES.map(({ name }) => name))('show `%s` as it parses', (name) => {
    const { example } = directiveNotes[name] ?? { example: '' }
    expect(example).toMatch(new RegExp(`^:{2,}${name}(?![\\w-])`, 'm'))
    const order = name === 'isolate' ? 'order: electrical' : ''
    expect(faultsIn(withSteps(example, order))).toEqual([])
  })
})

describe('the notes on kinds', () => {
  it.each(sourceKindNames)('show a source of kind %s as it parses', (kind) => {
    const { example } = sourceKindNotes[kind]
    expect(example).toContain(`kind: ${kind}`)
    const mains = kind === 'electrical' ? '' : '\n  mains: { kind: electrical, voltage: 400 V ac, phases: 3, at: [Q1] }'
    expect(faultsIn(withEntry(`energy:${mains}\n  ${example}`, 'energy'))).toEqual([])
  })

  it.each(restraintKinds)('show a restraint of kind %s as it parses', (kind) => {
    const { example } = restraintKindNotes[kind]
    expect(example).toContain(`kind: ${kind},`)
    expect(faultsIn(withEntry(`restraints:\n  ${example}`, 'restraints'))).toEqual([])
  })
})

describe('the keys of the front matter', () => {
  const quantities: readonly string[] = [...parameterNames, 'safe-below', 'fault-current']
  const known: Readonly<Record<KeyOwner, readonly string[]>> = {
    procedure: [...requiredKeys, ...optionalKeys],
    equipment: equipmentKeys,
    axis: axisKeys,
    generation: axisValueKeys,
    source: sourceKeys.filter((key) => !quantities.includes(key)),
    point: pointKeys,
    restraint: restraintKeys,
    role: roleKeys,
    'left-on': leftOnKeys,
    waiver: waiverKeys
  }

  it.each(Object.entries(known))('of %s are those that the parser knows', (owner, keys) => {
    const told = frontMatterKeys.filter((entry) => entry.of === owner).map(({ key }) => key)
    expect(told.sort()).toEqual([...keys].sort())
  })

  it.each(frontMatterKeys.filter(({ of }) => of === 'procedure'))(
    'show `$key` as it parses',
    ({ key, example, need }) => {
      expect(need === 'required').toBe(requiredKeys.includes(key))
      const steps = key === 'left-on' ? '::signoff[The heater stays on]{#heater-stays role=owner}' : 'Prose.'
      // An example that declares a whole group stands for the names that the host's other groups bear.
      const gone = key === 'energy' ? ['energy', 'restraints'] : [key]
      expect(faultsIn(withSteps(steps, example, gone))).toEqual([])
    }
  )

  it('show every other key as it is spelled', () => {
    for (const { key, example } of frontMatterKeys) expect(example.startsWith(`${key}: `)).toBe(true)
  })
})

describe('the mends of faults', () => {
  const ids = Object.keys(faultDangers) as readonly FaultId[]

  it('are given for each fault that the language knows', () => {
    expect(Object.keys(faultMends).sort()).toEqual([...ids].sort())
    for (const id of ids) expect(faultMends[id].mend).toMatch(/^[A-Z].*\.$/)
  })

  it.each(ids.filter((id) => faultMends[id].shown !== undefined))(
    'show %s as it is found and as it is mended',
    (id) => {
      const { shown } = faultMends[id]
      if (shown === undefined) throw new Error('nothing is shown')
      const [key = ''] = shown.mended.split(':')
      const file = (text: string) => (shown.in === 'steps' ? withSteps(text) : withEntry(text, key))
      expect(foundIn(file(shown.wrong))).toContain(id)
      expect(foundIn(file(shown.mended))).not.toContain(id)
      expect(faultsIn(file(shown.mended))).toEqual([])
    }
  )
})
