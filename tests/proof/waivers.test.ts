import { parseProcedure } from '@lockwright/language'
import { digestOf, type Machine } from '@lockwright/machine'
import { obligations, prove } from '@lockwright/proof'
import { buildSheet } from '@lockwright/runner-paper'
import { describe, expect, it } from 'vitest'
import { compileFile } from '../../packages/cli/src/compile-file.js'
import { findingsText } from '../../packages/cli/src/findings.js'
import { reportJson } from '../../packages/cli/src/report-json.js'
import { layOut } from '../../packages/runner-paper/src/blocks/lay-out.js'
import { english } from '../../packages/runner-paper/src/catalog.js'
import { machineOf } from '../end-to-end/compile-text.js'

// What may be waived is waived in writing, and whoever meets the procedure afterwards is told of it.

/** A tool that is listed behind the lock that it is needed at, and a step that nobody comes to. */
const procedure = (waive = ''): string => `---
procedure: S3-STRAINER
title: Look at strainer 3
revision: 1
equipment: { tag: S-3, name: Strainer 3, place: Sandholm waterworks }
scope: A look behind the lock.
no-start-control: a strainer has no drive
${waive}energy:
  water: { kind: liquid, pressure: 4 bar, at: [V1] }
points:
  V1: { is: gate valve, where: inlet of the strainer, safe: wheel closed }
---

# Lock out

::notify[Control room]

::shutdown

::lock{at=V1}

# Look

::tool[Hand lamp]{#lamp}

:::look
Shine the :ref[lamp] on the seal.
:::

::stop[Enough is seen]

::look[What nobody sees]
`
const gathered = { obligation: 'gathered-first', why: 'the lamp hangs beside the valve.', by: 'Coordinator A' }
const reached = { obligation: 'all-reached', why: 'kept for the next revision', by: 'Coordinator B' }

function waiving(
  ...waivers: readonly { readonly obligation: string; readonly why: string; readonly by: string }[]
): string {
  const rows = waivers.map(({ obligation, why, by }) => `  - { obligation: ${obligation}, why: ${why}, by: ${by} }\n`)
  return procedure(`waive:\n${rows.join('')}`)
}

function outcomesOf(machine: Machine): Readonly<Record<string, string>> {
  return Object.fromEntries(prove(machine).report.obligations.map(({ id, outcome }) => [id, outcome]))
}

describe('a waiver', () => {
  it('turns the obligation that it names from failed to waived, and no other', () => {
    const { kind, report } = prove(machineOf(procedure()))
    expect(kind).toBe('refused')
    const failed = report.obligations.filter(({ outcome }) => outcome === 'fails').map(({ id }) => id)
    expect(failed.sort()).toEqual(['all-reached', 'gathered-first'])

    const one = machineOf(waiving(gathered))
    expect(prove(one).kind).toBe('refused')
    expect(outcomesOf(one)).toMatchObject({ 'gathered-first': 'waived', 'all-reached': 'fails' })

    const both = machineOf(waiving(gathered, reached))
    expect(prove(both).kind).toBe('proved')
    expect(outcomesOf(both)).toMatchObject({ 'gathered-first': 'waived', 'all-reached': 'waived' })
  })

  it('is no more than a word where the obligation holds', () => {
    const text = waiving(gathered, reached).replace('::look[What nobody sees]\n', '')
    expect(outcomesOf(machineOf(text))).toMatchObject({ 'gathered-first': 'waived', 'all-reached': 'holds' })
  })

  it('is told as a warning at each place that it leaves standing, with who answers for it and why', () => {
    const verdict = prove(machineOf(waiving(gathered, reached)), { file: 'strainer.md' })
    const notes = verdict.kind === 'proved' ? verdict.notes : []
    expect(notes.map(({ id, severity, place, related }) => [id, severity, place.start.line, related.length])).toEqual([
      ['gathered-first', 'warning', 30, 2],
      ['all-reached', 'warning', 35, 1]
    ])
    expect(notes[0]?.what).toMatch(
      /^`lamp` is listed only .*\. Waived by Coordinator A: the lamp hangs beside the valve\.$/u
    )
    // The waiver's own place is beside it.
    expect(notes[1]?.related).toMatchObject([{ note: 'Here it is waived.', place: { start: { line: 10 } } }])
  })

  it('is told by check, as text and as JSON', () => {
    const bytes = new TextEncoder().encode(waiving(gathered, reached))
    const compiled = compileFile('strainer.md', bytes)
    expect(compiled.kind).toBe('proved')
    const text = findingsText({ file: 'strainer.md', bytes, compiled })
    expect(text).toContain('warning gathered-first  strainer.md:30:')
    expect(text.replace(/\s+/gu, ' ')).toContain('Waived by Coordinator B: kept for the next revision.')
    expect(text).toMatch(/^proved .*, 2 waived \(/mu)
    const told: unknown = JSON.parse(JSON.stringify(compiled.diagnostics.map(reportJson)))
    expect(text).toContain('warning no-work  strainer.md:3:8')
    expect(told).toMatchObject([
      { id: 'no-work', severity: 'warning', line: 3 },
      { id: 'gathered-first', severity: 'warning', line: 30 },
      { id: 'all-reached', severity: 'warning', line: 35 }
    ])
  })

  it('is printed on the sheet', () => {
    const verdict = prove(machineOf(waiving(gathered, reached)))
    if (verdict.kind !== 'proved') throw new Error(verdict.kind)
    const { machine, report } = verdict
    const options = { paper: 'a4', issue: { kind: 'draft' }, digest: digestOf(machine), report } as const
    const printed = JSON.stringify(layOut(buildSheet(machine, {}), options, english)).replaceAll('\u00a0', ' ')
    for (const { obligation, why, by } of [gathered, reached]) {
      expect(printed).toContain(obligation)
      expect(printed).toContain(why)
      expect(printed).toContain(by)
    }
  })

  it('is part of the machine that is signed: another reason is another digest', () => {
    const digests = [
      waiving(gathered, reached),
      waiving({ ...gathered, why: 'the lamp is always there' }, reached),
      waiving({ ...gathered, by: 'Coordinator C' }, reached)
    ].map((text) => digestOf(machineOf(text)))
    expect(new Set(digests).size).toBe(3)
  })
})

describe('what protects people', () => {
  const others = obligations.filter(({ waivable }) => !waivable).map(({ id }) => id)

  it('is every obligation but two, and the language refuses a waiver of it', () => {
    expect(others).toHaveLength(35)
    for (const id of others) {
      const parsed = parseProcedure({ file: 'strainer.md', text: waiving({ ...gathered, obligation: id }) })
      expect(parsed.ok ? [] : parsed.diagnostics.map((diagnostic) => diagnostic.id)).toEqual(['bad-waiver'])
    }
  })

  it('is not waived by a machine that was tampered with either', () => {
    const machine = machineOf(procedure().replace('::shutdown\n\n', ''))
    const span = { line: 8, column: 1, endLine: 8, endColumn: 2 }
    const waivers = [...others, 'gathered-first', 'all-reached'].map((obligation) => ({
      obligation,
      span,
      why: 'none',
      by: 'nobody'
    }))
    const verdict = prove({ ...machine, waivers })
    expect(verdict.kind === 'refused' ? verdict.diagnostics.map(({ id }) => id) : []).toEqual(['control-order'])
  })
})
