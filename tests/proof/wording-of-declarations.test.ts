import { describe, expect, it } from 'vitest'
import { type Case, check, panel, series, textOf, verdictOf, water } from './wording-case.js'

describe('words of what is declared', () => {
  const leaving = (attributes: string): string =>
    `::signoff[It may]{#keep role=owner}\n\n:::work{leaves=mains${attributes}} <<<\n1. Reach in.\n:::`
  const guarded = panel.replace('phases: 3,', 'phases: 3, guarded: behind a bolted plate,')
  const cases: readonly Case[] = [
    {
      name: 'a single answer',
      body: '::::ask[Does it run?] <<<\n:::answer[Yes]\nGood.\n:::\n::::',
      id: 'branches-cover',
      what: 'The question has a single answer, so that it decides nothing.'
    },
    {
      name: 'two answers that read the same',
      body: '::::ask[Does it run?] <<<\n:::answer[Yes  it does]\nGood.\n:::\n:::answer[yes it does]\nBad.\n:::\n::::',
      id: 'branches-cover',
      what: 'Two answers to the question read the same: "yes it does".'
    },
    {
      name: 'two branches for one generation',
      head: `${series}\n${water}`,
      body: '::identify{hardware=series}\n\n::::by{hardware=series} <<<\n:::when{is=old}\n::look[Bolts]\n:::\n:::when{is="old new"}\n::look[Lever]\n:::\n::::',
      id: 'branches-cover',
      what: 'The way parts by `series`, and two branches are for `old`.'
    },
    {
      name: 'left on with neither reason nor sign-off',
      head: `no-start-control: none\nenergy:\n  mains: { kind: electrical, voltage: 24 V dc, conductors: [P, N], at: [Q1] }\npoints:\n  Q1: { is: switch, where: door, safe: off }\nroles:\n  owner: { name: Owner }`,
      body: leaving(''),
      id: 'left-on',
      what: '`mains` is left on during work and no reason is given. `mains` is left on during work without a permit.'
    },
    {
      name: 'left on bare',
      head: panel,
      body: leaving(' why=needed permit=keep'),
      id: 'left-on',
      what: '`mains` is electricity above 50 V and is left on bare during work.',
      mend: 'Lock and prove it, or declare in the front matter which fixed barrier covers it: `guarded: ...` at `mains`.'
    },
    {
      name: 'left on behind a barrier, signed by anyone',
      head: guarded,
      body: leaving(' why=needed permit=keep'),
      id: 'left-on',
      what: '`mains` is electricity above 50 V, and the permit `keep` to leave it on is signed by nobody of an electrical role.'
    },
    {
      name: 'a spring that no step lets go',
      head: 'energy:\n  spring: { kind: spring, rate: 4 N/mm, deflection: 50 mm, unfed: wound by hand }',
      body: '::look[The spring]',
      id: 'source-covered',
      what: '`spring` is declared, and the procedure does nothing about it: nothing feeds it, and no step relieves it or puts on a restraint that holds it.',
      mend: 'Add `::relieve{of=spring}` before the work. What has to stay on is named under `left-on:` with a reason and a permit.'
    },
    {
      name: 'a battery that no step covers',
      head: 'energy:\n  cells: { kind: battery, voltage: 96 V dc, conductors: [P, N] }\nrestraints:\n  mat: { kind: cover, is: insulating cover, holds: [cells] }',
      body: '::look[The cells]',
      id: 'source-covered',
      what: '`cells` is declared, and the procedure does nothing about it: nothing feeds it, and no step relieves it or puts on a restraint that holds it.',
      mend: 'Add `::restrain{with=mat}` before the work. What has to stay on is named under `left-on:` with a reason and a permit.'
    },
    {
      name: 'a feeder whose device is not locked',
      head: 'energy:\n  air: { kind: gas, volume: 4 L, pressure: 6 bar, at: [V1] }\n  ram: { kind: gravity, mass: 90 kg, height: 1 m, fed-by: [air] }\npoints:\n  V1: { is: valve, where: left, safe: across }\nrestraints:\n  prop: { kind: block, is: prop, holds: [air] }',
      body: '::shutdown\n\n::restrain{with=prop}',
      id: 'source-covered',
      what: '`ram` is declared, and the procedure does nothing about it: no step locks `V1`, and none puts on a restraint that holds it.'
    },
    {
      name: 'a tool listed after the step that needs it',
      body: ':::look[The valve]\nUse the :ref[lamp]. <<<\n:::\n\n::tool[Hand lamp]{#lamp}',
      id: 'gathered-first',
      what: '`lamp` is listed only at line 20, after the step that needs it.'
    }
  ]
  it.each(cases)('$name', (one) => {
    check(one)
  })

  it('leaves a source on behind a barrier that a qualified person signs for', () => {
    const body = leaving(' why=needed permit=keep').replace('role=owner', 'role=qualified')
    const verdict = verdictOf(textOf({ head: guarded, body: body.replace(' <<<', ''), name: '', id: '', what: '' }))
    const outcome = verdict.report.obligations.find(({ id }) => id === 'left-on')?.outcome
    expect(outcome).toBe('holds')
  })

  it('takes a waiver for what may be waived, and for nothing else', () => {
    const waive = 'waive: [{ obligation: gathered-first, why: the lamp hangs there, by: A. Sample }]'
    const body = ':::look[The valve]\nUse the :ref[lamp].\n:::\n\n::tool[Hand lamp]{#lamp}'
    const verdict = verdictOf(textOf({ head: `${water}\n${waive}`, body, name: '', id: '', what: '' }))
    expect(verdict.report.obligations.find(({ id }) => id === 'gathered-first')?.outcome).toBe('waived')
  })
})
