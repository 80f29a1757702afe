import { describe, expect, it } from 'vitest'
import { parseProcedure } from './parse-procedure.js'

const head = `---
procedure: W-1
title: Fixture
revision: 1
equipment: { tag: M-1, name: Mixer, place: Hallby works }
scope: Nothing but this fixture.
energy:
  mains: { kind: electrical, voltage: 400 V ac, phases: 3, at: [Q1] }
points:
  Q1: { is: switch, where: door, safe: handle at O }
---
`
const firstLine = head.split('\n').length
const work = '\n\n:::work\nChange the belt.\n:::\n'

/** Id and line of each warning, lines counted from the first line of the body. */
function warned(body: string): readonly string[] {
  const result = parseProcedure({ file: 'w.md', text: head + body })
  if (!result.ok) throw new Error(result.diagnostics.map(({ id, what }) => `${id} ${what}`).join('\n'))
  for (const { severity, place, what, danger, mend, path } of result.warnings) {
    expect(severity).toBe('warning')
    expect(path).toEqual([])
    expect(place.file).toBe('w.md')
    for (const sentence of [what, danger, mend]) expect(sentence).toMatch(/^[^\s].*[.?]$/u)
  }
  return result.warnings.map(({ id, place }) => `${id}:${place.start.line - firstLine + 1}`)
}

describe('what the language warns of', () => {
  it('is nothing in a procedure with hands-on work and plain prose', () => {
    expect(warned(`# Change the belt${work}`)).toEqual([])
    expect(warned('1. Change the belt.\n')).toEqual([])
  })

  it('is a procedure in which nothing counts as hands-on work, at its title', () => {
    const titleLine = 3 - firstLine + 1
    expect(warned('- Pull the belt off by hand.\n\n::finish\n')).toEqual([`no-work:${titleLine}`])
    const result = parseProcedure({ file: 'w.md', text: `${head}::finish\n` })
    const [warning] = result.ok ? result.warnings : []
    expect(warning?.what).toBe(
      'Nothing in this file counts as hands-on work on a dead machine: only a numbered list or `:::work` does; bullets and prose are information.'
    )
    expect(warning?.place.start.column).toBe(8)
  })

  it('is no missing work where the work stands inside a branch', () => {
    expect(warned(':::::ask[Loose?]\n::::answer[Yes]\n1. Tighten it.\n::::\n::::answer[No]\n::::\n:::::\n')).toEqual([])
  })

  it.each([
    ['Step 1: open the guard and reach in.', true],
    ['Step 1', true],
    ['step 12. Open the guard.', true],
    ['**Step 2** Open the guard.', true],
    ['- Step 3: open the guard.', true],
    ['* STEP 3', true],
    ['Look here.\nStep 1: open the guard.', true],
    ['A stepladder 1 m high is enough.', false],
    ['Steps 1 to 3 are done by the fitter.', false],
    ['Go on as after\nstep 3 of the manual.', false],
    ['See step 3 of the manual.', false],
    ['Step by step.', false]
  ])('tells prose that is written as a step: %s', (prose, expected) => {
    const line = prose.includes('\n') && expected ? 2 : 1
    expect(warned(prose + work)).toEqual(expected ? [`written-step:${line}`] : [])
  })

  it('tells each written step, in a branch as well, and none inside a step', () => {
    const body = `Step 1: open it.\nStep 2: close it.\n\n:::::ask[Loose?]\n::::answer[Yes]\nStep 3: tighten it.\n::::\n::::answer[No]\n::::\n:::::${work}`
    expect(warned(body)).toEqual(['written-step:1', 'written-step:2', 'written-step:6'])
    expect(warned('\n:::work\nStep 1: open it.\n:::\n')).toEqual([])
    expect(warned(`# Step 1${work}`)).toEqual([])
  })

  it.each([
    ['#Hand back', true],
    ['  ###Hand back', true],
    ['Look here.\n#Überall', true],
    ['#1 is the pump.', false],
    ['# Hand back', false],
    ['    #Hand back', false],
    ['```\n#Hand back\n```', false],
    ['See #Hand', false],
    ['#######Hand', false]
  ])('tells a heading without a space: %s', (prose, expected) => {
    const line = prose.startsWith('Look') ? 2 : 1
    expect(warned(`${prose}${work}`)).toEqual(expected ? [`heading-without-space:${line}`] : [])
  })

  it('lists no more of them than of faults', () => {
    const result = parseProcedure({ file: 'w.md', text: `${head}${'Step 1: go.\n\n'.repeat(9000)}${work}` })
    if (!result.ok) throw new Error(result.diagnostics[0].what)
    expect(result.warnings.length).toBeLessThan(2000)
    expect(result.warnings.at(-1)?.id).toBe('too-many-faults')
    expect(result.warnings.at(-1)?.severity).toBe('warning')
  })
})
