import { describe, it } from 'vitest'
import { type Case, check, items, panel, pinned, series, water } from './wording-case.js'

describe('words of needs, from tests with power on to the return to service', () => {
  const cases: readonly Case[] = [
    {
      name: 'a test with power on and the rest not dead',
      head: `energy:
  mains: { kind: electrical, voltage: 400 V ac, phases: 3, at: [Q1] }
  water: { kind: liquid, pressure: 4 bar, at: [Q1] }
  drum: { kind: rotating, inertia: 1 kg m2, speed: 90 rpm, fed-by: [water] }
points:
  Q1: { is: switch, where: door, safe: handle at O }
roles:
  owner: { name: Owner }`,
      body: '::live{near=drum apart=water why="It only turns with water" permit=go} <<<\n\n::signoff[Go]{#go role=owner}',
      id: 'live-permitted',
      what: 'A test is made by hand with power on, and not everything that allows it is there: `water` is named apart but feeds what is under test; the permit `go` may not be given yet; `mains` may be on beside it, neither proven dead nor named in `apart`.',
      mend: 'Take `water` out of `apart=`: it feeds what is under test. Let every way to this step pass the sign-off `go`, after the last change of a lock or device. Lock, relieve and prove `mains` first, or name it in `apart=` if it is out of reach.'
    },
    {
      name: 'a test of electricity by anyone, in gloves that are too thin',
      head: panel,
      body: '::wear[Gloves]{#thin class=00}\n\n::signoff[Go]{#go role=owner}\n\n::live{near=mains why="It needs a load" permit=go role=owner wear=thin} <<<',
      id: 'live-permitted',
      what: 'A test is made by hand with power on, and not everything that allows it is there: no role declared `electrical: true` does it (`role=`).',
      mend: 'Let a role declared `electrical: true` do it: `role=`.'
    },
    {
      name: 'a test by a qualified person in gloves that are too thin, with two feeders named apart',
      head: `energy:
  mains: { kind: electrical, voltage: 690 V ac, phases: 3, at: [Q1] }
  relay: { kind: electrical, voltage: 24 V dc, conductors: [P, N], at: [Q1] }
  drive: { kind: electrical, voltage: 690 V ac, phases: 3, fed-by: [mains, relay] }
points:
  Q1: { is: switch, where: door, safe: handle at O }
roles:
  qualified: { name: Qualified person, electrical: true }`,
      body: '::wear[Gloves]{#thin class=00}\n\n::signoff[Go]{#go role=qualified}\n\n::live{near=drive apart="mains relay" why="It needs a load" permit=go role=qualified wear=thin} <<<',
      id: 'live-permitted',
      what: 'A test is made by hand with power on, and not everything that allows it is there: `mains` is named apart but feeds what is under test; `relay` is named apart but feeds what is under test; gloves of class 00 do not fit 690 V ac.',
      mend: 'Take `mains` and `relay` out of `apart=`: they feed what is under test. Wear gloves whose class fits the voltage, and name them: `wear=`.'
    },
    {
      name: 'a machine run with hands just out',
      head: panel,
      body: `${items}\n\n::signoff[Go]{#go role=owner}\n\n::live{near=mains why="It needs a load" permit=go role=qualified wear=gloves}\n\n::inspect\n\n::operate <<<`,
      id: 'operate-closed',
      what: 'The machine is run by its own controls although people may be in reach.',
      mend: 'Add `::clear` before line 29, after the last step with hands in.'
    },
    {
      name: 'a lock off that was never on',
      body: '::unlock{at=V1} <<<',
      id: 'device-state',
      what: '`V1` is unlocked where no lock may be on.',
      mend: 'Take this step out, or let every way to it pass `::lock{at=V1}`.'
    },
    {
      name: 'a locked device switched off',
      head: `order: electrical\n${panel}`,
      body: '::notify[All]\n\n::shutdown\n\n::lock{at=Q1}\n\n::isolate{at=Q1} <<<',
      id: 'device-state',
      what: '`Q1` is switched off while a lock may be on.'
    },
    {
      name: 'power with nobody looking again, in the electrical order',
      head: `order: electrical\n${panel}`,
      body: '::notify[All]\n\n::shutdown\n\n::lock{at=Q1}\n\n::unlock{at=Q1}\n\n::energize{at=Q1} <<<',
      id: 'clear-before-energy',
      what: '`Q1` is switched on while people may be in reach. On the way shown the `unlock` on line 27 undid the clearing of people.',
      mend: 'Add `::clear` before line 29, after the unlock (line 27): with this order people are looked for again once the locks are off.'
    },
    {
      name: 'locks off with nobody warned, in the electrical order',
      head: `order: electrical\n${panel}`,
      body: '::notify[All]\n\n::shutdown\n\n::lock{at=Q1}\n\n::inspect\n\n::unlock{at=Q1} <<<',
      id: 'told-before-start',
      what: '`Q1` is unlocked before people were told that the machine can start. On the way shown the `inspect` on line 27 undid the telling of people.',
      mend: 'Add `::notify[who]` before line 29, after the last inspection (line 27): with this order people are warned before the locks come off.'
    },
    {
      name: 'power on a load that rests on its block',
      head: `no-start-control: none
energy:
  load: { kind: gravity, mass: 90 kg, height: 1 m, at: [V1] }
points:
  V1: { is: valve, where: left, safe: across }
restraints:
  prop: { kind: block, is: prop, holds: [load] }`,
      body: '::notify[All]\n\n::shutdown\n\n::lock{at=V1}\n\n::restrain{with=prop}\n\n::unlock{at=V1} <<<',
      id: 'restraints-off',
      what: '`V1` is unlocked while `prop` is still on what it feeds.',
      mend: 'Add `::remove{restraint=prop}` before line 26. If it comes out only once power has lifted the load, declare that: `needs-power: why`.'
    },
    {
      name: 'everything left behind',
      head: pinned,
      body: '::shutdown\n\n::lock{at="V1 V2"}\n\n::restrain{with=pin}\n\n::finish <<<',
      id: 'all-returned',
      what: 'The machine is returned to service although `V1` and `V2` may not be back in their normal position, `pin` may still be on, the machine was not inspected since hands were last in it and people may be in reach.',
      mend: 'Add `::clear`, `::remove{restraint=pin}`, `::inspect`, `::clear`, `::unlock{at="V1 V2"}`, `::notify[who]` and `::energize{at=V1}`, in this order, before line 25 on every way that comes here, or end that way with `::stop[reason]`. `V2` is off in service.'
    },
    {
      name: 'steps for one series, on nobody knows which',
      head: `${series}\n${water}`,
      body: '::::only{series=old} <<<\n::look[The bolts]\n::::',
      id: 'hardware-known',
      what: 'The way parts by `series` before anyone has identified it.'
    }
  ]
  it.each(cases)('$name', (one) => {
    check(one)
  })
})
