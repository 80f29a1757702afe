import { parseProcedure } from '@lockwright/language'
import type { Machine } from '@lockwright/machine'
import { compile } from '@lockwright/machine/lower'
import { describe, expect, it } from 'vitest'
import { prove } from './prove.js'

const head = `---
procedure: STRAINER
title: Clean the strainer
revision: 1
equipment: { tag: S-1, name: Strainer 1, place: Sandholm waterworks }
scope: Cleaning the basket.
no-start-control: a strainer has no drive
energy:
  water: { kind: liquid, pressure: 4 bar, at: [V1] }
points:
  V1: { is: gate valve, where: inlet, safe: wheel closed }
---

::tool[Gauge]{#gauge measures=pressure range="0 to 10 bar"}

# Lock out

::notify[All]

::shutdown

::lock{at=V1}

::relieve{of=water with=gauge}

::prove{of=water with=gauge}

# Clean

1. Wash the basket.
`
const back = `
# Hand back

::inspect

::clear

::unlock{at=V1}

::notify[All]

::energize{at=V1}
`

function machineOf(text: string): Machine {
  const parsed = parseProcedure({ file: 'strainer.md', text })
  if (!parsed.ok) throw new Error(parsed.diagnostics.map(({ what }) => what).join('\n'))
  const compiled = compile(parsed.value)
  if (!compiled.ok) throw new Error(compiled.diagnostics.map(({ what }) => what).join('\n'))
  return compiled.value
}

describe('prove', () => {
  it('looks at each state of a straight procedure once', () => {
    const { kind, report } = prove(machineOf(head + back))
    // Gathering, six steps of the lockout and the work, five of the return, the finish.
    expect({ kind, states: report.states, configurations: report.configurations }).toEqual({
      kind: 'proved',
      states: 13,
      configurations: 13
    })
  })

  it('explores each answer and each way back to where it has been before', () => {
    const loop = `${head}${back}
::look[The flow]{#flow}

::::ask[Is the flow back?]
:::answer[Yes]
Good.
:::
:::answer[No]
::back{to=flow}
:::
::::
`
    // One state more for each of look, question and way back; round the loop nothing is new.
    expect(prove(machineOf(loop)).report).toMatchObject({ states: 16, configurations: 16 })
  })

  it('calls nothing proven once a limit is reached', () => {
    const verdict = prove(machineOf(head + back), { limit: 12 })
    expect(verdict.kind).toBe('undecided')
    expect(verdict.report.configurations).toBe(12)
    expect(verdict.report.obligations.filter(({ outcome }) => outcome === 'holds')).toEqual([])
    expect(prove(machineOf(head + back), { limit: 13 }).kind).toBe('proved')
  })

  it('shows the shortest way, with the ledger after each step and before the one that fails', () => {
    const verdict = prove(machineOf(`${head}\n::unlock{at=V1}\n`), { file: 'strainer.md' })
    if (verdict.kind !== 'refused') throw new Error(verdict.kind)
    const first = verdict.diagnostics.find(({ id }) => id === 'inspected-before-energy')
    expect(first?.place).toMatchObject({ file: 'strainer.md', start: { line: 32, column: 1 } })
    expect(first?.path.map(({ line, title }) => [line, title])).toEqual([
      [14, 'Gather the tools, parts and protective equipment'],
      [18, 'Tell All'],
      [20, 'Shut down by the normal controls'],
      [22, 'Lock V1'],
      [24, 'Let the energy out of water'],
      [26, 'Prove water dead'],
      [30, 'Work: Wash the basket.'],
      [32, 'Unlock V1']
    ])
    const ledgers = first?.path.map(({ ledger }) => ledger) ?? []
    expect(ledgers[2]).toMatch(/^on: water; no locks;/u)
    expect(ledgers[3]).toMatch(/^holds energy: water; locks: V1;/u)
    expect(ledgers[5]).toMatch(/^proven dead: water; locks: V1;/u)
    expect(ledgers[7]).toBe(ledgers[6])
  })

  it('tells a fault of a repeated section once, at the place where it is written', () => {
    const text = `${head}\n::unlock{at=V1}\n${back}\n# Again\n\n::repeat{section=clean}\n`
    const verdict = prove(machineOf(text))
    if (verdict.kind !== 'refused') throw new Error(verdict.kind)
    const places = verdict.diagnostics.map(({ id, place }) => `${id} ${place.start.line}`)
    expect(new Set(places).size).toBe(places.length)
    expect(places.filter((place) => place === 'relock-after-test 30')).toHaveLength(1)
  })
})
