import { describe, expect, it } from 'vitest'
import { checkSwaps, failing, type Step, step, verdictOf } from './swapped-steps.js'

// Source: 29 CFR 1910.333(b)(2)(ii) to (v), requirements to be followed in the order presented (standards.md 2.1, read
// there through state rules that adopt the paragraph). Beside each swap stands why.

describe('29 CFR 1910.333(b)(2)', () => {
  const head = `---
procedure: DEENERGIZE
title: The order of 1910.333(b)(2)
revision: 1
equipment: { tag: B-1, name: Drive 1, place: Sandholm pumping station }
scope: The order of 1910.333(b)(2) and nothing else.
order: electrical
energy:
  mains: { kind: electrical, voltage: 400 V ac, phases: 3, at: [Q1] }
  dc-link:
    { kind: capacitor, capacitance: 4 mF, voltage: 565 V dc, label-wait: 10 min, conductors: [P, N], fed-by: [mains], rebuilds: true }
points:
  Q1: { is: switch-disconnector, where: door of the cabinet, safe: handle at O }
restraints:
  earths: { kind: earth, is: earthing set, holds: [mains, dc-link] }
roles:
  qualified: { name: Qualified electrical person, holds: [electrical-lv], electrical: true }
---`
  const gather = step(
    'gather',
    '::tool[Two-pole tester]{#tester measures=voltage rated="1000 V" category=IV}\n::wear[Insulating gloves]{#gloves class=0}'
  )
  const steps: readonly Step[] = [
    // Nothing in (b)(2) forbids what 1910.147(c)(9) and (d)(2) ask for first.
    step('notify', '::notify[Affected employees]'),
    step('shutdown', '::shutdown'),
    // (ii)(B)
    step('isolate', '::isolate{at=Q1}'),
    // (ii)(C)
    step('relieve', '::relieve{of=dc-link}'),
    // (iii)
    step('lock', '::lock{at=Q1}'),
    // (iv)(A)
    step('tryout', '::tryout'),
    // (iv)(B)
    step('prove', '::prove{of="mains dc-link" with=tester known="the socket by the door" role=qualified wear=gloves}'),
    // (ii)(C): short-circuited and grounded, once it is known to be dead
    step('restrain', '::restrain{with=earths role=qualified wear=gloves}'),
    step('work', '1. Change the module.\n'),
    // (v)(A): shorts and grounds removed
    step('remove', '::remove{restraint=earths}'),
    step('inspect', '::inspect'),
    step('clear', '::clear'),
    // (v)(B)
    step('warn', '::notify[Exposed employees]'),
    // (v)(C)
    step('unlock', '::unlock{at=Q1}'),
    // (v)(D)
    step('clear again', '::clear'),
    step('energize', '::energize{at=Q1}')
  ]
  checkSwaps(
    head,
    [gather, ...steps],
    [
      { first: 'gather', next: 'notify', fails: null, because: 'the regulation says nothing about tools' },
      {
        first: 'notify',
        next: 'shutdown',
        fails: null,
        because: '1910.147(c)(9) wants the notice before the controls are applied, and shutting down applies none'
      },
      {
        first: 'shutdown',
        next: 'isolate',
        fails: 'control-order',
        because:
          '1910.147(d)(2) and (d)(3): shut down, then isolated; (b)(2)(ii)(A) wants the way down settled beforehand'
      },
      {
        first: 'isolate',
        next: 'relieve',
        fails: 'relieve-isolated',
        because: '(ii)(B) and (C): disconnected from all sources, then released'
      },
      {
        first: 'relieve',
        next: 'lock',
        fails: null,
        because: 'note 2 to (b)(2): a procedure in the order of 1910.147 complies, and that locks first'
      },
      {
        first: 'lock',
        next: 'tryout',
        fails: 'tryout-clear',
        because: '(iii) and (iv)(A): locked, then tried whether it can be restarted'
      },
      {
        first: 'tryout',
        next: 'prove',
        fails: 'tryout-clear',
        because: '(iv)(A) and (B): first the controls, then the test, which brings hands in'
      },
      {
        first: 'prove',
        next: 'restrain',
        fails: 'ground-after-proof',
        because: '(iv)(B): not proven dead is treated as energized'
      },
      {
        first: 'restrain',
        next: 'work',
        fails: 'rebuild-restrained',
        because: '(ii)(C): short-circuited and grounded where the charge could come back'
      },
      {
        first: 'work',
        next: 'remove',
        fails: 'rebuild-restrained',
        because: '(v): shorts and grounds come off before re-energizing, after the work'
      },
      {
        first: 'remove',
        next: 'inspect',
        fails: 'inspected-before-energy',
        because: '(v)(A): the inspection is of shorts and grounds removed'
      },
      {
        first: 'inspect',
        next: 'clear',
        fails: null,
        because: '(v) asks for no look at people before the warning, so none is out of order'
      },
      {
        first: 'clear',
        next: 'warn',
        fails: null,
        because: '(v)(B) and (C) ask only that the warning comes before the locks are removed'
      },
      { first: 'warn', next: 'unlock', fails: 'told-before-start', because: '(v)(B) and (C): warned, then the locks' },
      {
        first: 'unlock',
        next: 'clear again',
        fails: 'clear-before-energy',
        because: '(v)(C) and (D): the look at people comes after the locks'
      },
      {
        first: 'clear again',
        next: 'energize',
        fails: 'clear-before-energy',
        because: '(v)(D): before re-energizing, even for a moment'
      }
    ]
  )

  it('does not take a warning given before the inspection ((v)(A) and (B): in the order presented)', () => {
    const warn = steps.filter(({ name }) => name === 'warn')
    const others = steps.filter(({ name }) => name !== 'warn')
    const at = others.findIndex(({ name }) => name === 'inspect')
    const order = [gather, ...others.slice(0, at), ...warn, ...others.slice(at)]
    expect(failing(verdictOf(head, order))).toEqual(['told-before-start', 'told-before-start'])
  })

  it('is refused under the order of 1910.147, which knows no step before the lock', () => {
    const verdict = verdictOf(head.replace('order: electrical\n', ''), [
      gather,
      ...steps.filter(({ name }) => name !== 'isolate')
    ])
    expect(failing(verdict)[0]).toBe('relieve-isolated')
  })
})
