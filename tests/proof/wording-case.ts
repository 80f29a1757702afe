import { parseProcedure } from '@lockwright/language'
import { compile } from '@lockwright/machine/lower'
import { prove, type Verdict } from '@lockwright/proof'
import { expect } from 'vitest'

// The obligations' pages show one refusal each; the wording tests hold the other ways in which a rule can fail.

export interface Case {
  readonly name: string
  /** Front matter below `scope`; the strainer's water where absent. */
  readonly head?: string
  /** ` <<<` marks the line that the diagnostic names. */
  readonly body: string
  readonly id: string
  readonly what: string
  readonly mend?: string
}

export const water = `no-start-control: a strainer has no drive
energy:
  water: { kind: liquid, pressure: 4 bar, at: [V1] }
points:
  V1: { is: gate valve, where: inlet, safe: wheel closed }`

export const panel = `no-start-control: it starts with its supply
energy:
  mains: { kind: electrical, voltage: 400 V ac, phases: 3, at: [Q1] }
  dc-link: { kind: capacitor, capacitance: 4 mF, voltage: 565 V dc, conductors: [P, N], label-wait: 10 min, fed-by: [mains] }
points:
  Q1: { is: switch, where: door, safe: handle at O }
roles:
  qualified: { name: Qualified person, electrical: true }
  owner: { name: Owner }`

export const pinned = `energy:
  water: { kind: liquid, pressure: 2 bar, at: [V1] }
  drum: { kind: rotating, inertia: 40 kg m2, speed: 20 rpm, fed-by: [water] }
points:
  V1: { is: butterfly valve, where: supply pipe, safe: lever across the pipe }
  V2: { is: drain valve, where: sump, safe: closed, normal: off }
restraints:
  pin: { kind: pin, is: drum pin, holds: [drum] }`

export const series = `hardware:
  series: { ask: Which series?, is: { old: { name: Old, tell: bolts }, new: { name: New, tell: lever } } }`

export const gauge = '::tool[Pressure gauge]{#gauge measures=pressure range="0 to 10 bar"}'

export const items = `::tool[Tester]{#tester measures=voltage rated="1000 V" category=IV}
::wear[Gloves]{#gloves class=0}`

export function textOf({ head = water, body }: Case): string {
  return `---
procedure: WORDING
title: Words of a refusal
revision: 1
equipment: { tag: W-1, name: Stand 1, place: Sandholm workshop }
scope: The words of a refusal.
${head}
---

# All of it

${body.trim()}
`
}

export function verdictOf(text: string): Verdict {
  const parsed = parseProcedure({ file: 'wording.md', text })
  if (!parsed.ok)
    throw new Error(parsed.diagnostics.map(({ id, place, what }) => `${id} ${place.start.line} ${what}`).join('\n'))
  const compiled = compile(parsed.value)
  if (!compiled.ok) throw new Error(compiled.diagnostics.map(({ what }) => what).join('\n'))
  return prove(compiled.value, { file: 'wording.md' })
}

export function check(one: Case): void {
  const marked = textOf(one).split('\n')
  const line = marked.findIndex((text) => text.endsWith(' <<<')) + 1
  const verdict = verdictOf(marked.map((text) => text.replace(/ <<<$/u, '')).join('\n'))
  const diagnostics = verdict.kind === 'proved' ? [] : verdict.diagnostics
  const found = diagnostics.filter(({ id, place }) => id === one.id && (line === 0 || place.start.line === line))
  expect(
    found.map(({ what }) => what),
    diagnostics.map(({ id, place, what }) => `${id} ${place.start.line} ${what}`).join('\n')
  ).toEqual([one.what])
  if (one.mend !== undefined) expect(found[0]?.mend).toBe(one.mend)
}
