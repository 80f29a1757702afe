import { type Diagnostic, parseProcedure } from '@lockwright/language'
import { compile } from '@lockwright/machine/lower'
import { describe, expect, it } from 'vitest'
import { prove } from './prove.js'

function file(order: 'general' | 'electrical', body: string): string {
  return `---
procedure: PADDLE
title: Clean the paddle
revision: 1
equipment: { tag: P-1, name: Paddle 1, place: Sandholm waterworks }
scope: Cleaning the paddle.
order: ${order}
no-start-control: it has no drive
energy:
  water: { kind: liquid, pressure: 4 bar, at: [V1] }
  oil: { kind: liquid, pressure: 2 bar, at: [V3] }
points:
  V1: { is: gate valve, where: inlet, safe: wheel closed }
  V3: { is: gate valve, where: oil line, safe: wheel closed }
restraints:
  chain: { kind: chain, is: chain, holds: [water] }
---

::tool[Gauge]{#gauge measures=pressure range="0 to 10 bar"}

${body}
`
}

function refusals(text: string): readonly Diagnostic[] {
  const parsed = parseProcedure({ file: 'paddle.md', text })
  if (!parsed.ok) throw new Error(parsed.diagnostics.map(({ what }) => what).join('\n'))
  const compiled = compile(parsed.value)
  if (!compiled.ok) throw new Error(compiled.diagnostics.map(({ what }) => what).join('\n'))
  const verdict = prove(compiled.value)
  return verdict.kind === 'proved' ? [] : verdict.diagnostics
}

function lineOf(text: string, words: string, from = 0): number {
  return text.slice(0, text.indexOf(words, from)).split('\n').length
}

const down = `::notify[All]

::shutdown

::lock{at="V1 V3"}

::relieve{of="water oil" with=gauge}

::restrain{with=chain}

::prove{of="water oil" with=gauge}

1. Wash the paddle.

`

describe('what undid it', () => {
  it('is named where the machine was inspected before the chain came off', () => {
    const text = file(
      'general',
      `${down}::inspect\n\n::clear\n\n::remove{restraint=chain}\n\n::clear\n\n::unlock{at="V1 V3"}\n\n::notify[All]\n\n::energize{at="V1 V3"}`
    )
    const line = lineOf(text, '::remove')
    const found = refusals(text).filter(({ id }) => id === 'inspected-before-energy')
    expect(found.length).toBeGreaterThan(0)
    for (const { what, mend } of found) {
      expect(what).toContain(`On the way shown the \`remove\` on line ${line} undid the inspection.`)
      expect(mend).toContain(`after the last step with hands in (line ${line}).`)
    }
  })

  it('is the last of several, since a step before that would be undone again', () => {
    const text = file(
      'general',
      `${down}::inspect\n\n2. Grease it.\n\n::clear\n\n::remove{restraint=chain}\n\n::clear\n\n::unlock{at="V1 V3"}\n\n::notify[All]\n\n::energize{at="V1 V3"}`
    )
    const found = refusals(text).find(({ id }) => id === 'inspected-before-energy')
    expect(found?.what).toContain(`on line ${lineOf(text, '::remove')} undid`)
  })

  it('is the work where a lock goes on after it, and the mend says after which line', () => {
    const text = file('general', `${down}::lock{at=V1}\n\n::stop[Open]`)
    const line = lineOf(text, '1. Wash')
    const found = refusals(text).find(({ id }) => id === 'control-order')
    expect(found?.what).toBe(
      `\`V1\` is locked before people were told. On the way shown the hands-on work on line ${line} undid the telling of people.`
    )
    expect(found?.mend).toBe(
      `Add \`::notify[who]\` before line ${lineOf(text, '::lock{at=V1}')} and after line ${line}.`
    )
  })

  it('is nothing where nothing was done before', () => {
    const text = file('general', '::lock{at=V1}\n\n::stop[Open]')
    for (const { what } of refusals(text)) expect(what).not.toContain('On the way shown')
  })
})

describe('the return to service', () => {
  const up = {
    general: [
      '::inspect',
      '::clear',
      '::remove{restraint=chain}',
      '::inspect',
      '::clear',
      '::unlock{at="V1 V3"}',
      '::notify[All]'
    ],
    electrical: [
      '::inspect',
      '::clear',
      '::remove{restraint=chain}',
      '::inspect',
      '::clear',
      '::notify[All]',
      '::unlock{at="V1 V3"}',
      '::clear'
    ]
  } as const
  const ends = (['general', 'electrical'] as const).flatMap((order) =>
    [...up[order].keys(), up[order].length].map((kept) => [order, kept] as const)
  )

  it('asks of a device that is off and unlocked only that it is switched on', () => {
    const text = file('general', `${down}${up.general.join('\n\n')}\n\n::energize{at=V1}`)
    const found = refusals(text)
    expect(found.map(({ id }) => id)).toEqual(['all-returned'])
    expect(found[0]?.mend).toContain('Add `::energize{at=V3}` at the end of the file')
    expect(refusals(`${text}\n\n::energize{at=V3}\n`)).toEqual([])
  })

  it.each(ends)('is proved once the advice is followed: %s order, broken off after %i steps', (order, kept) => {
    const locked = order === 'general' ? down : down.replace('::lock', '::isolate{at="V1 V3"}\n\n::lock')
    const text = file(order, `${locked}${up[order].slice(0, kept).join('\n\n')}`)
    const [mend = ''] = refusals(text).flatMap((one) => (one.id === 'all-returned' ? one.mend : []))
    const steps = [...(mend.split(' at the end of the file')[0] ?? '').matchAll(/`(::[^`]+)`/g)].map(
      ([, step = '']) => step
    )
    expect(steps.length).toBeGreaterThan(0)
    expect(refusals(`${text}\n\n${steps.join('\n\n')}\n`).map(({ id, what }) => `${id} ${what}`)).toEqual([])
  })
})
