import { describe, it } from 'vitest'
import { type Case, check, gauge, items, panel, pinned, water } from './wording-case.js'

describe('words of needs, up to the work', () => {
  const cases: readonly Case[] = [
    {
      name: 'work, with a point that no step locks and a feeder that holds energy',
      head: `no-start-control: none
energy:
  air: { kind: gas, volume: 40 L, pressure: 6 bar, at: [V1, V2] }
  oil: { kind: liquid, pressure: 90 bar, unfed: pumped by hand }
  ram: { kind: gravity, mass: 90 kg, height: 1 m, fed-by: [air, oil] }
points:
  V1: { is: valve, where: left, safe: across }
  V2: { is: valve, where: right, safe: across }`,
      body: '::notify[All]\n\n::shutdown\n\n::lock{at=V1}\n\n1. Reach in. <<<\n',
      id: 'work-isolated',
      what: 'Hands go to work while `air` and `ram` may still be fed: `V2` is not locked and `oil`, which feeds `ram`, is not dead.',
      mend: 'Add `::lock{at=V2}` before line 25. Relieve or restrain `oil` before line 25. A source that must stay on is named in `leaves=`, with `why=` and `permit=`. If the numbered list on line 25 is no hands-on work, write it with hyphens.'
    },
    {
      name: 'work, with the lock off again',
      body: '::notify[All]\n\n::shutdown\n\n::lock{at=V1}\n\n::unlock{at=V1}\n\n1. Reach in. <<<\n',
      id: 'relock-after-test',
      what: 'Hands go back to work while `water` may be fed again: after power was back, `V1` is not locked.'
    },
    {
      name: 'work beside a battery without its cover',
      head: `no-start-control: none
energy:
  cells: { kind: battery, voltage: 96 V dc, conductors: [P, N] }
restraints:
  mat: { kind: cover, is: insulating cover, holds: [cells] }`,
      body: '1. Reach in. <<<\n',
      id: 'work-released',
      what: 'Hands go to work while `cells` may still hold its charge: it cannot be let out, and `mat` is not on.',
      mend: 'Add `::restrain{with=mat}` after the last lock and before line 16.'
    },
    {
      name: 'work under a load that nothing lifts',
      head: `no-start-control: none
energy:
  lid: { kind: gravity, mass: 80 kg, height: 1 m, unfed: lifted by hand }`,
      body: '1. Reach in. <<<\n',
      id: 'work-released',
      what: 'Hands go to work while `lid` may still come down: it was not relieved since the machine last ran, and no restraint is declared that holds it.',
      mend: 'Add `::relieve{of=lid}` after the last lock and before line 14.'
    },
    {
      name: 'work on what was proven before it came back',
      body: `${gauge}\n\n::notify[All]\n\n::shutdown\n\n::lock{at=V1}\n\n::relieve{of=water}\n\n::prove{of=water with=gauge}\n\n::unlock{at=V1}\n\n::lock{at=V1}\n\n::relieve{of=water}\n\n1. Reach in. <<<\n`,
      id: 'work-proven',
      what: 'Hands go to work on what may not be dead: the verification of `water` at line 26 was passed by or counts no more.',
      mend: 'Verify `water` again before line 34, after the last step that could bring energy back. If the numbered list on line 34 is no hands-on work, write it with hyphens.'
    },
    {
      name: 'energy that comes back, with nothing declared to hold it',
      head: water.replace('at: [V1] }', 'at: [V1], rebuilds: true }'),
      body: '::notify[All]\n\n::shutdown\n\n::lock{at=V1}\n\n::relieve{of=water}\n\n1. Reach in. <<<\n',
      id: 'rebuild-restrained',
      what: 'Hands go to work while `water` can come back by itself: no restraint is declared that holds it.',
      mend: 'Declare under `restraints:` what holds `water` back, and put it on with `::restrain` before line 24.'
    },
    {
      name: 'a lock with nothing before it',
      body: '::lock{at=V1} <<<',
      id: 'control-order',
      what: '`V1` is locked before people were told and before the machine was shut down.',
      mend: 'Add `::notify[who]` and `::shutdown` before line 16.'
    },
    {
      name: 'a switch off with nobody told since hands were in',
      head: `order: electrical\n${panel}`,
      body: `::notify[All]\n\n1. Reach in.\n\n::shutdown\n\n::isolate{at=Q1} <<<`,
      id: 'control-order',
      what: '`Q1` is switched off before people were told. On the way shown the hands-on work on line 23 undid the telling of people.',
      mend: 'Add `::notify[who]` before line 27 and after line 23.'
    },
    {
      name: 'a pin with the machine running',
      head: pinned,
      body: '::restrain{with=pin} <<<',
      id: 'control-order',
      what: '`pin` goes on before the machine was shut down.'
    },
    {
      name: 'a pin with two devices open',
      head: pinned.replace('fed-by: [water] }', 'at: [V2], fed-by: [water] }'),
      body: '::shutdown\n\n::restrain{with=pin} <<<',
      id: 'restrain-locked',
      what: '`pin` goes on while `drum`, which is held by it, may still be fed: `V2` and `V1` are not all locked.'
    },
    {
      name: 'a release before the switch is off',
      head: `order: electrical\n${panel}`,
      body: '::relieve{of=dc-link} <<<',
      id: 'relieve-isolated',
      what: '`dc-link` is relieved while it may still be fed: `mains`, which feeds `dc-link`, is not dead.',
      mend: 'Add `::isolate{at=Q1}` before line 21, or move this step behind it; what feeds it is let out first.'
    },
    {
      name: 'a try-out with no lock on',
      head: pinned,
      body: '::tryout <<<\n\n::notify[All]\n\n::shutdown\n\n::lock{at=V1}',
      id: 'tryout-clear',
      what: 'The start control is tried while no lock is on.',
      mend: 'Move this step behind the locks, which go on from line 25.'
    },
    {
      name: 'work before the try-out',
      head: pinned,
      body: '::notify[All]\n\n::shutdown\n\n::lock{at=V1}\n\n1. Reach in. <<<\n\n::clear\n\n::tryout',
      id: 'tryout-done',
      what: 'Hands go to work although the start control was not tried since a lock last went on or came off.',
      mend: 'Add `::clear` and `::tryout` after the last lock and before line 25. The one at line 29 comes too late. If the numbered list on line 25 is no hands-on work, write it with hyphens.'
    },
    {
      name: 'a test before there is any lock or release',
      head: pinned,
      body: `${gauge}\n\n::prove{of="water drum" with=gauge} <<<`,
      id: 'void-proof',
      what: '`water` is verified while it may still be fed through `V1` or be under pressure; `drum` is verified while it may still be fed through `V1` or turn: the reading proves nothing.',
      mend: 'Add `::lock{at=V1}` and `::relieve{of=water}` before the verification of `water`. Add `::lock{at=V1}` and `::relieve{of=drum}` or `::restrain{with=pin}` before the verification of `drum`.'
    },
    {
      name: 'earths before the test of one of two conductors',
      head: `${panel}\nrestraints:\n  earths: { kind: earth, is: earthing set, holds: [mains, dc-link] }`,
      body: `${items}\n\n::notify[All]\n\n::shutdown\n\n::lock{at=Q1}\n\n::relieve{of=dc-link}\n\n::prove{of=mains with=tester known="the socket"}\n\n::restrain{with=earths} <<<`,
      id: 'ground-after-proof',
      what: '`earths` goes onto `dc-link` before it was proven dead.'
    }
  ]
  it.each(cases)('$name', (one) => {
    check(one)
  })
})
