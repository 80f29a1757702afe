import { describe, expect, it } from 'vitest'
import { checkSwaps, failing, type Step, step, verdictOf } from './swapped-steps.js'

// Source: 29 CFR 1910.147 Appendix A, "typical minimal lockout procedures", as noted in standards.md 1.9, with the
// paragraphs (c)(9), (d) and (e) that it puts into practice (standards.md 1.5 to 1.7). Beside each swap stands why.

describe('29 CFR 1910.147 Appendix A', () => {
  const head = `---
procedure: APPENDIX-A
title: The lockout of Appendix A
revision: 1
equipment: { tag: A-1, name: Flywheel press 1, place: Sandholm workshop }
scope: The order of Appendix A and nothing else.
energy:
  air: { kind: gas, volume: 60 L, pressure: 6 bar, at: [V1] }
  wheel: { kind: rotating, inertia: 9 kg m2, speed: 300 rpm, fed-by: [air] }
points:
  V1: { is: ball valve, where: air line, safe: lever across the pipe }
restraints:
  pin: { kind: pin, is: wheel pin, holds: [wheel] }
---`
  const gauge = step('gather', '::tool[Pressure gauge]{#gauge measures=pressure range="0 to 10 bar"}')
  const steps: readonly Step[] = [
    // Sequence of lockout, 1. Step 2, to look up the energies, is the front matter.
    step('notify', '::notify[Affected employees]'),
    // 3
    step('shutdown', '::shutdown'),
    // 4 and 5: the step puts the device into its off position and hangs the lock.
    step('lock', '::lock{at=V1}'),
    // 6, dissipated
    step('relieve', '::relieve{of=air with=gauge}'),
    // 6, restrained
    step('restrain', '::restrain{with=pin}'),
    // 7, nobody exposed
    step('clear', '::clear'),
    // 7, by operating the control, which is then returned to off
    step('tryout', '::tryout'),
    // 7, by testing
    step('prove the air', '::prove{of=air with=gauge}'),
    step('prove the wheel', ':::prove{of=wheel by=trial}\nPush the wheel against the pin.\n:::'),
    // 8: now locked out
    step('work', '1. Change the belt.\n'),
    // Restoring, note to 4: blocking that needs no power comes out before the locks do.
    step('clear for the pin', '::clear'),
    step('remove', '::remove{restraint=pin}'),
    // Restoring, 1
    step('inspect', '::inspect'),
    // Restoring, 2; 3, the controls in neutral, was done by the try-out.
    step('clear for the start', '::clear'),
    // Restoring, 4
    step('unlock', '::unlock{at=V1}'),
    // Restoring, 5. Appendix A lists it last; (e)(2)(ii), which binds, wants it after the devices are removed and before
    // the machine is started. Here the return of energy counts as the moment from which it can start.
    step('notify of the start', '::notify[Affected employees]'),
    step('energize', '::energize{at=V1}')
  ]
  checkSwaps(
    head,
    [gauge, ...steps],
    [
      { first: 'gather', next: 'notify', fails: null, because: 'the regulation says nothing about tools' },
      {
        first: 'notify',
        next: 'shutdown',
        fails: null,
        because: '(c)(9) wants the notice before the controls are applied, and shutting down applies none'
      },
      {
        first: 'shutdown',
        next: 'lock',
        fails: 'control-order',
        because: '(d)(2) to (d)(4): in the following sequence'
      },
      {
        first: 'lock',
        next: 'relieve',
        fails: 'relieve-isolated',
        because: '(d)(5)(i): stored energy is relieved after the devices are applied'
      },
      {
        first: 'relieve',
        next: 'restrain',
        fails: null,
        because: '(d)(5)(i) sets no order between relieving and restraining'
      },
      {
        first: 'restrain',
        next: 'clear',
        fails: 'tryout-clear',
        because:
          'Appendix A, 7: nobody is exposed when the control is tried, but the pin was set by hand after the check'
      },
      {
        first: 'clear',
        next: 'tryout',
        fails: 'tryout-clear',
        because: 'Appendix A, 7: first the check, then the control'
      },
      {
        first: 'tryout',
        next: 'prove the air',
        fails: 'tryout-clear',
        because: 'Appendix A, 7: the test brings hands back into the machine after the check'
      },
      {
        first: 'prove the air',
        next: 'prove the wheel',
        fails: null,
        because: '(d)(6) sets no order between the sources'
      },
      {
        first: 'prove the wheel',
        next: 'work',
        fails: 'work-proven',
        because: '(d)(6): verified before work is started'
      },
      {
        first: 'work',
        next: 'clear for the pin',
        fails: 'remove-clear',
        because: '(e)(2)(i): the check of the people says nothing of work that follows it'
      },
      {
        first: 'clear for the pin',
        next: 'remove',
        fails: 'remove-clear',
        because: '(e)(2)(i): people are out of reach before what is held can move'
      },
      {
        first: 'remove',
        next: 'inspect',
        fails: 'inspected-before-energy',
        because: '(e)(1): what is not part of the machine is out, the pin too'
      },
      {
        first: 'inspect',
        next: 'clear for the start',
        fails: null,
        because: '(e) wants both before the devices are removed and sets no order between them'
      },
      {
        first: 'clear for the start',
        next: 'unlock',
        fails: 'clear-before-energy',
        because: '(e)(2)(i): before the devices are removed'
      },
      {
        first: 'unlock',
        next: 'notify of the start',
        fails: 'told-before-start',
        because: '(e)(2)(ii): after the devices have been removed'
      },
      {
        first: 'notify of the start',
        next: 'energize',
        fails: 'told-before-start',
        because: '(e)(2)(ii): before the machine is started'
      }
    ]
  )

  it('may prove before the control is tried once people are clear again', () => {
    const names = ['tryout', 'clear', 'prove the air', 'prove the wheel']
    const start = steps.filter(({ name }) => ['notify', 'shutdown', 'lock', 'relieve', 'restrain'].includes(name))
    const rest = steps.slice(steps.findIndex(({ name }) => name === 'work'))
    const [tryout, clear, air, wheel] = names.map((name) => steps.filter((one) => one.name === name))
    const order = [gauge, ...start, ...(air ?? []), ...(wheel ?? []), ...(clear ?? []), ...(tryout ?? []), ...rest]
    expect(failing(verdictOf(head, order))).toEqual([])
  })

  it('lets blocking that needs power out after energy is back (Appendix A, note to restoring, 4)', () => {
    const resting = head
      .replace('kind: rotating, inertia: 9 kg m2, speed: 300 rpm', 'kind: gravity, mass: 400 kg, height: 1 m')
      .replace('holds: [wheel] }', 'holds: [wheel], needs-power: the load rests on it }')
    const early = steps.filter(({ name }) => name !== 'clear for the pin' && name !== 'remove')
    const late = [
      ...early,
      step('remove', '::remove{restraint=pin}'),
      step('inspect', '::inspect'),
      step('clear', '::clear')
    ]
    expect(failing(verdictOf(resting, [gauge, ...late]))).toEqual([])
    const unsaid = resting.replace(', needs-power: the load rests on it', '')
    expect(failing(verdictOf(unsaid, [gauge, ...late]))).toEqual(['restraints-off', 'restraints-off'])
  })
})
