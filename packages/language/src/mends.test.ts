import { describe, expect, it } from 'vitest'
import { parseProcedure } from './parse-procedure.js'

function head(energy: string): string {
  return `---
procedure: F-1
title: Fixture
revision: 1
equipment: { tag: M-1, name: Mixer, place: Hallby works }
scope: Nothing but this fixture.
energy:
  mains: { kind: electrical, voltage: 400 V ac, phases: 3, at: [Q1] }
  ${energy}
points:
  Q1: { is: switch, where: door, safe: handle at O }
  Q2: { is: switch, where: door, safe: handle at O }
roles:
  fitter: { name: Fitter }
---
`
}

const belt = 'belt: { kind: spring, rate: 4 N/mm, deflection: 8 mm, unfed: wound by hand }'

function faults(text: string): readonly string[] {
  const result = parseProcedure({ file: 'f.md', text })
  if (result.ok) throw new Error('It was accepted.')
  return result.diagnostics.map(({ id, what, mend }) => `${id}: ${what} ${mend}`)
}

const inBody = (line: string): readonly string[] => faults(`${head(belt)}${line}\n`)
const inFrontMatter = (energy: string): readonly string[] => faults(`${head(energy)}::finish\n`)

describe('one colon', () => {
  it.each([
    ':danger[Falling weight]',
    ':wait[Let it cool]{for="10 min"}',
    ':clear',
    '   :clear  ',
    ':Clear',
    ':SIGNOFF[Ready]{role=fitter}',
    'Some prose.\n:clear',
    ':lock{at=Q1}\nHang the lock.\n:::'
  ])('is no directive: %s', (line) => {
    const found = inBody(line)
    expect(found).toHaveLength(1)
    expect(found[0]).toMatch(
      /^broken-directive: One colon is not enough .* Write `:{2,3}\w+` (?:for one line|\.\.\. `:::` for a block)/u
    )
  })

  it('offers only the forms that the directive has', () => {
    expect(inBody(':wait{for="1 min"}')[0]).toContain('Write `::wait` for one line.')
    expect(inBody(':only{cabinet=old}')[0]).toContain('Write `:::only` ... `:::` for a block.')
  })

  it('keeps the names that the line declares, so that their uses are no faults', () => {
    expect(inBody(':signoff[Ready]{#ready role=fitter}\n\n::live[Try]{near=mains why=x permit=ready}')).toHaveLength(1)
  })

  it.each([
    ':ref[Q1] is the switch.',
    ':clear the floor first.',
    ':smile',
    'It is :clear',
    '    :clear',
    '```\n:clear\n```',
    ':wait, then go on.'
  ])('leaves other prose alone: %s', (prose) => {
    const result = parseProcedure({ file: 'f.md', text: `${head(belt)}${prose}\n\n1. Work.\n` })
    expect(result.ok ? [] : result.diagnostics).toEqual([])
  })
})

describe('a value that is cut', () => {
  it.each([
    ['::lock{at=Q1 Q2}', '`at="Q1 Q2"`'],
    ['::lock{at=Q1, Q2}', '`at="Q1 Q2"`'],
    ['::relieve{of=belt wait=30 s}', '`wait="30 s"`'],
    ['::lock{role=fitter at=Q1  Q2}', '`at="Q1 Q2"`'],
    ['::prove{of=mains with=T1 by=trial known=the live one}', '`known="the live one"`']
  ])('at a space is put in quotes: %s', (line, shown) => {
    const found = inBody(line).filter((fault) => fault.startsWith('unknown-attribute'))
    expect(found).toHaveLength(1)
    expect(found[0]).toContain('ends at the space')
    expect(found[0]).toContain(`plain double quotes: ${shown}.`)
  })

  it('is one fault, not two', () => {
    expect(inBody('::relieve{of=belt wait=30 s}')).toHaveLength(1)
  })

  it('is not taken for a flag that is spelled nearly right', () => {
    expect(inBody('::tool[Gauge]{#g measures=pressure need-calibration}')[0]).toContain('Write `needs-calibration`')
  })

  it.each([
    ['::lock{at=“Q1”}', '`at="Q1"`'],
    ['::lock{at=“Q1 Q2”}', '`at="Q1 Q2"`'],
    ['::relieve{of=belt wait=„30 s“}', '`wait="30 s"`'],
    ['::lock{at=‘Q1’}', '`at="Q1"`']
  ])('names curly quotes: %s', (line, shown) => {
    const found = inBody(line)
    expect(found).toHaveLength(1)
    expect(found[0]).toMatch(/curly quote/u)
    expect(found[0]).toContain('plain double quotes')
    expect(found[0]).toContain(shown)
  })

  it('names curly quotes where they make the front matter unreadable', () => {
    expect(
      inFrontMatter('belt: { kind: spring, rate: 4 N/mm, deflection: 8 mm, unfed: “by hand: twice” }\n  x: “')[0]
    ).toContain('Curly quotes are no quotes here')
  })

  it('leaves curly quotes inside plain ones', () => {
    expect(inBody('::prove{of=mains with=T9 known="the “live” socket"}').join()).not.toContain('curly')
  })
})

describe('quantities', () => {
  it.each([
    ['belt: { kind: gravity, mass: 900 kg, height: 3,5 m, unfed: x }', '`height: 3.5 m`'],
    [
      'belt: { kind: gravity, mass: 1,200 kg, height: 3 m, unfed: x }',
      'Write `mass: 1200 kg` or, with a decimal point, `mass: 1.200 kg`'
    ],
    ['belt: { kind: gravity, mass: 900 kg ± 2,5 %, height: 3 m, unfed: x }', '`mass: 900 kg ± 2.5 %`'],
    ['belt: { kind: gravity, mass: 900 kg, height: "3,5 m", unfed: x }', '`3.5 m`']
  ])('with a decimal comma are one fault: %s', (energy, shown) => {
    const found = inFrontMatter(energy)
    expect(found).toHaveLength(1)
    expect(found[0]).toMatch(/^bad-value: .*comma.*point/u)
    expect(found[0]).toContain(shown)
  })

  it('with a decimal comma are told in block form and in attributes as well', () => {
    expect(inFrontMatter('belt:\n    kind: gravity\n    mass: 9 kg\n    height: 3,5 m\n    unfed: x')).toEqual([
      expect.stringMatching(/comma.*Write `3\.5 m`\.$/u)
    ])
    expect(inBody('::relieve{of=belt wait="2,5 h"}')).toEqual([expect.stringMatching(/comma.*Write `2\.5 h`\.$/u)])
  })

  it.each([
    ['belt: { kind: electrical, voltage: 400 Volt, phases: 3, at: [Q1] }', 'Write `400 V`.'],
    ['belt: { kind: electrical, voltage: 400 Volts ac, phases: 3, at: [Q1] }', 'Write `400 V ac`.'],
    ['belt: { kind: gravity, mass: 900 Kilogram ± 5 %, height: 3 m, unfed: x }', 'Write `900 kg ± 5 %`.'],
    ['belt: { kind: gravity, mass: 900 kg, height: 3 metres, unfed: x }', 'Write `3 m`.'],
    ['belt: { kind: gas, volume: 20 litres, pressure: 6 bar, unfed: x }', 'Write `20 L`.'],
    ['belt: { kind: magnet, inductance: 1 H, current: 5 Amp, resistance: 1 ohm, at: [Q1] }', 'Write `5 A`.']
  ])('with a word for a unit name the unit: %s', (energy, mend) => {
    const found = inFrontMatter(energy)
    expect(found).toHaveLength(1)
    expect(found[0]).toContain(mend)
    expect(found[0]).not.toContain('did you mean')
  })

  it.each([
    ['belt: { kind: gas, volume: 20 L, pressure: 6, unfed: x }', 'bar'],
    ['belt: { kind: gas, volume: 20 L, pressure: 6 xyzzy, unfed: x }', 'bar'],
    ['belt: { kind: gas, volume: 20 L, pressure: six bar, unfed: x }', 'bar'],
    ['belt: { kind: gas, volume: 20 L, pressure: 6 V, unfed: x }', 'bar'],
    ['belt: { kind: gravity, mass: 900, height: 3 m, unfed: x }', 'kg']
  ])('show a unit of what the key wants: %s', (energy, unit) => {
    const found = inFrontMatter(energy)
    expect(found).toHaveLength(1)
    expect(found[0]).toMatch(new RegExp(`such as \`[\\d.]+ ${unit}`, 'u'))
    expect(found[0]).not.toMatch(/such as `\S+ V`/u)
  })

  it('offer of the near units only those that the key takes', () => {
    expect(inFrontMatter('belt: { kind: gas, volume: 20 L, pressure: 6 Bar, unfed: x }')[0]).toContain('Write `6 bar`.')
    expect(inBody('::relieve{of=belt wait="5 mn"}')[0]).toMatch(/did you mean `min`|Write `5 min`/u)
  })

  it('are explained in no time, however long they are', () => {
    const long = `::relieve{of=belt wait="5 ${' x'.repeat(4000)}"}\n`
    const started = performance.now()
    expect(inBody(long.repeat(20))).not.toEqual([])
    expect(inBody(`::lock{${'a=‘'.repeat(3000)} ${'b'.repeat(900)} "}\n`.repeat(20))).not.toEqual([])
    expect(performance.now() - started).toBeLessThan(2000)
  })

  it('show a time in attributes', () => {
    expect(inBody('::relieve{of=belt wait=30}')[0]).toContain('such as `5 min`')
  })
})

describe('keys and kinds', () => {
  it('lists all kinds where none is near', () => {
    const [fault = ''] = inFrontMatter('belt: { kind: weight, mass: 9 kg, height: 3 m, unfed: x }')
    for (const kind of ['electrical', 'capacitor', 'gravity', 'spring', 'gas', 'liquid', 'thermal', 'other'])
      expect(fault).toContain(`\`${kind}\``)
  })

  it.each([
    ['belt: { kind: electrical, volts: 400 V ac, phases: 3, at: [Q1] }', 'Write `voltage`'],
    ['belt: { kind: gas, volume: 20 L, press: 6 bar, unfed: x }', 'Write `pressure`'],
    ['belt: { kind: gravity, burden: 20 kg, height: 3 m, unfed: x }', '`gravity` takes `mass` or `height`']
  ])('names the key that was meant, or those that the kind takes: %s', (energy, mend) => {
    expect(inFrontMatter(energy).find((fault) => fault.startsWith('unknown-key'))).toContain(mend)
  })
})
