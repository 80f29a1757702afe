import { type Diagnostic, parseProcedure } from '@lockwright/language'
import { compile } from '@lockwright/machine/lower'
import { remedyAdvice } from '@lockwright/proof'
import { describe, expect, it } from 'vitest'

interface Written {
  readonly label: string
  readonly facts: string
  readonly body?: string
}

/** Re-test: 6 min of steps and a wait of 4 min. Re-lock: 12 min, and 3 min for the longer of two branches. */
function procedureWith(remedies: readonly Written[], order = ''): string {
  return `---
procedure: REMEDIES-1
title: Try remedies
revision: 1
equipment: { tag: R-1, name: Stand, place: Sandholm workshop }
scope: Nothing but tests.
energy:
  mains: { kind: electrical, voltage: 400 V ac, phases: 3, at: [Q1] }
points:
  Q1: { is: switch, where: left, safe: down }
roles:
  expert: { name: Expert, holds: [electrical], electrical: true }
---

# Lock out

:::lock{at=Q1 minutes=12}
:::

::::ask[Is it dark?]
:::answer[Yes]
::look[With a lamp]{minutes=3}
:::
:::answer[No]
::look[Without]{minutes=1}
:::
::::

# Test

:::operate{minutes=6}
:::

::wait[Let it run]{for="4 min"}

# Put it right

::signoff[Test with power on]{#allowed role=expert}

:::::::::remedies{retest=test relock=lock-out cured="Does it run?"${order}}
${remedies.map(({ label, facts, body }) => `::::::::remedy[${label}]{${facts}}\n${body ?? '1. Change it.'}\n::::::::`).join('\n')}
::::::::otherwise
::stop[Call the maker]
::::::::
:::::::::
`
}

function adviceOn(text: string): readonly Diagnostic[] {
  const parsed = parseProcedure({ file: 'remedies.md', text })
  if (!parsed.ok) throw new Error(parsed.diagnostics.map(({ id, what }) => `${id}: ${what}`).join('\n'))
  const compiled = compile(parsed.value)
  if (!compiled.ok) throw new Error(compiled.diagnostics.map(({ what }) => what).join('\n'))
  return remedyAdvice(parsed.value, compiled.value)
}

const dear: Written = { label: 'Drive', facts: 'chance=0.2 minutes=60' }
const cheap: Written = { label: 'Fuse', facts: 'chance=0.5 minutes=5' }
const live = ':::live{near=mains why="it shows under load alone" permit=allowed role=expert}\n1. Measure.\n:::'

describe('advice on the order of remedies', () => {
  it('gives both expected times, with re-test and re-lock in them', () => {
    const [advice, ...others] = adviceOn(procedureWith([dear, cheap]))
    expect(others).toEqual([])
    // By hand, re-test 10 and re-lock 15: 60 + 10 + 0.8 (15 + 5 + 10) + 0.3 * 15 = 98.5, and the other way round
    // 5 + 10 + 0.5 (15 + 60 + 10) + 0.3 * 15 = 62.
    expect(advice).toMatchObject({
      id: 'remedy-order',
      severity: 'advice',
      what: 'In the order written the remedies are expected to take 98.5 min; tried as `Fuse` and `Drive`, 62 min.'
    })
    expect(advice?.place.start.line).toBe(40)
    expect(advice?.mend).toContain('10 min for the re-test are counted, and 15 min for the lockout again')
    expect(advice?.related.map(({ note }) => note)).toEqual([
      '`Drive`: chance 0.2 in 60 min of its own.',
      '`Fuse`: chance 0.5 in 5 min of its own.'
    ])
  })

  it('says nothing of the best order, of an order that is meant, and of ladders that give no facts', () => {
    expect(adviceOn(procedureWith([cheap, dear]))).toEqual([])
    expect(adviceOn(procedureWith([dear, cheap], ' order=fixed'))).toEqual([])
    expect(adviceOn(procedureWith([dear, { ...cheap, facts: '' }], ' order=fixed'))).toEqual([])
    expect(
      adviceOn(
        procedureWith([
          { label: 'A', facts: '' },
          { label: 'B', facts: '' }
        ])
      )
    ).toEqual([])
    expect(adviceOn(procedureWith([dear]))).toEqual([])
  })

  it('says which fact is missing and advises no order', () => {
    const advice = adviceOn(procedureWith([dear, { ...cheap, facts: 'chance=0.5' }]))
    expect(advice.map(({ id, what }) => `${id}: ${what}`)).toEqual([
      'remedy-facts: Whether this is the quickest order of the remedies cannot be told: `Fuse` has no `minutes`.'
    ])
  })

  it('says where the chances cannot be those of one fault', () => {
    const advice = adviceOn(procedureWith([dear, { ...cheap, facts: 'chance=0.9 minutes=5' }]))
    expect(advice.map(({ id }) => id)).toEqual(['remedy-chances'])
    expect(advice[0]?.what).toContain('add up to 1.1')
  })

  it('never brings a remedy with power on forward, however good its ratio', () => {
    const test: Written = { label: 'Tune', facts: 'chance=0.5 minutes=5', body: live }
    expect(adviceOn(procedureWith([dear, test]))).toEqual([])
    const nested = `:::::ask[Which?]\n::::answer[This]\n${live}\n::::\n::::answer[That]\n1. Change it.\n::::\n:::::`
    expect(adviceOn(procedureWith([dear, { ...test, body: nested }]))).toEqual([])
    expect(adviceOn(procedureWith([dear, { ...test, body: nested.replace(live, '1. Turn it.') }])).length).toBe(1)
    const third: Written = { label: 'Wire', facts: 'chance=0.2 minutes=1' }
    const [advice] = adviceOn(procedureWith([dear, test, third]))
    expect(advice?.what).toContain('tried as `Wire`, `Drive` and `Tune`')
    expect(advice?.mend).toContain('`Tune` needs power on and is not moved forward for that reason.')
  })
})
