import { readdirSync, readFileSync } from 'node:fs'
import { parseProcedure } from '@lockwright/language'
import type { Machine } from '@lockwright/machine'
import { compile } from '@lockwright/machine/lower'
import { Ajv2020 } from 'ajv/dist/2020.js'
import { describe, expect, it } from 'vitest'

const root = new URL('../../', import.meta.url)
const schema: unknown = JSON.parse(readFileSync(new URL('packages/machine/schema/machine.schema.json', root), 'utf8'))
const fits = new Ajv2020({ strict: true, allowUnionTypes: true }).compile(schema as object)

/** The library, what the pages of the obligations accept and refuse, and a fixture with the words that those lack. */
const procedures: readonly { readonly name: string; readonly text: string }[] = [
  ...markdownIn('tests/machine/fixtures'),
  ...markdownIn('procedures'),
  ...markdownIn('packages/proof/src/obligations').flatMap(({ name, text }) =>
    [...text.matchAll(/^```markdown (accepted|refused)[^\n]*\n([\s\S]*?)^```$/gm)].map(([, kind, block], index) => ({
      name: `${name} ${kind} ${index + 1}`,
      text: block ?? ''
    }))
  )
]

function markdownIn(folder: string): { readonly name: string; readonly text: string }[] {
  return readdirSync(new URL(folder, root))
    .filter((name) => name.endsWith('.md') && name !== 'README.md')
    .map((name) => ({ name, text: readFileSync(new URL(`${folder}/${name}`, root), 'utf8') }))
}

/** The machine; null where the text is refused before there is one. */
function machineOf({ name, text }: { readonly name: string; readonly text: string }): Machine | null {
  const procedure = parseProcedure({ file: name, text })
  if (!procedure.ok) return null
  const machine = compile(procedure.value)
  return machine.ok ? machine.value : null
}

const machines = procedures.flatMap((procedure) => {
  const machine = machineOf(procedure)
  return machine === null ? [] : [{ name: procedure.name, machine }]
})

function damaged(): Record<string, unknown> {
  const [first] = machines
  return JSON.parse(JSON.stringify(first?.machine)) as Record<string, unknown>
}

/** Every object inside a value, with its path. */
function objectsIn(value: unknown, path: readonly (string | number)[] = []): (readonly (string | number)[])[] {
  if (Array.isArray(value)) return value.flatMap((item, index) => objectsIn(item, [...path, index]))
  if (typeof value !== 'object' || value === null) return []
  return [path, ...Object.entries(value).flatMap(([key, part]) => objectsIn(part, [...path, key]))]
}

function at(value: unknown, path: readonly (string | number)[]): Record<string, unknown> {
  return path.reduce<unknown>((part, key) => (part as Record<string | number, unknown>)[key], value) as Record<
    string,
    unknown
  >
}

/** Of the objects that stand at like places and have like keys, the first alone. */
function oncePerShape(
  value: unknown,
  paths: readonly (readonly (string | number)[])[]
): (readonly (string | number)[])[] {
  const first = new Map<string, readonly (string | number)[]>()
  for (const path of paths) {
    const part = at(value, path)
    const kind = ['kind', 'is', 'does', 'on'].map((word) => part[word]).join(' ')
    const shape = `${path.filter((key) => typeof key === 'string').join('/')} ${kind} ${Object.keys(part).join(' ')}`
    if (!first.has(shape)) first.set(shape, path)
  }
  return [...first.values()]
}

/** Names of maps and of the few keys that may be missing. */
const optional = ['current', 'reference']
const isMap = (path: readonly (string | number)[]) => path.at(-1) === 'quantities'

/** The damages that the schema does not notice. */
function damageMissed(machine: unknown): string[] {
  const missed: string[] = []
  for (const path of oncePerShape(machine, objectsIn(machine)).filter((place) => !isMap(place))) {
    const part = at(machine, path)
    for (const [key, value] of Object.entries(part)) {
      delete part[key]
      if (!optional.includes(key) && fits(machine)) missed.push([...path, key].join('/'))
      part[key] = value
    }
    part['unheard-of'] = true
    if (fits(machine)) missed.push(`${path.join('/')} with an unknown key`)
    delete part['unheard-of']
  }
  return missed
}

describe('machine.schema.json', () => {
  it('is what write-schema.mjs writes', async () => {
    const script = new URL('packages/machine/schema/write-schema.mjs', root)
    const { schema: written } = (await import(script.href)) as { readonly schema: unknown }
    expect(schema).toEqual(written)
  })

  it('is tried on many machines, in which every kind of state, input, exit and effect occurs', () => {
    expect(machines.length).toBeGreaterThan(40)
    const seen = new Set(
      machines.flatMap(({ machine }) =>
        [...JSON.stringify(machine).matchAll(/"(?:kind|is|does|on)":"([a-z-]+)"/g)].map(([, word]) => word)
      )
    )
    const asked = [...JSON.stringify(schema).matchAll(/"(?:kind|is|does|on)":\{"(?:const|enum)":(\[[^\]]*\]|"[^"]*")/g)]
      .flatMap(([, words]) => [JSON.parse(words ?? '""') as string | string[]])
      .flat()
    expect(asked.filter((word) => !seen.has(word))).toEqual([])
  })

  it.each(machines)('fits the machine of $name', ({ machine }) => {
    fits(machine)
    expect(fits.errors).toBeNull()
    // As it comes back from a file, too.
    expect(fits(JSON.parse(JSON.stringify(machine)))).toBe(true)
  })

  it('refuses a machine with any one key missing or any unknown key added', { timeout: 120_000 }, () => {
    const missed: string[] = []
    for (const { machine } of machines.slice(0, 2)) missed.push(...damageMissed(structuredClone(machine)))
    expect(missed).toEqual([])
  })

  it.each<[string, (machine: Record<string, unknown>) => void]>([
    ['another format', (machine) => Object.assign(machine, { format: 'lockwright-machine/2' })],
    ['a revision below 1', (machine) => Object.assign(machine, { revision: 0 })],
    ['no source', (machine) => Object.assign(machine, { sources: [] })],
    ['no state', (machine) => Object.assign(machine, { states: [] })],
    ['an order of its own', (machine) => Object.assign(machine, { order: 'reversed' })],
    ['a state of an unknown kind', (machine) => Object.assign(at(machine, ['states', 0]), { kind: 'skip' })],
    ['a guard that is code', (machine) => Object.assign(at(machine, ['states', 0]), { turns: ['() => true'] })],
    [
      'an effect that the ledger does not know',
      (machine) => Object.assign(at(machine, ['states', 0]), { turns: [{ needs: [], does: [{ does: 'trust' }] }] })
    ]
  ])('refuses %s', (_name, damage) => {
    const machine = damaged()
    expect(fits(machine)).toBe(true)
    damage(machine)
    expect(fits(machine)).toBe(false)
  })
})
