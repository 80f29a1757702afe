/** A small procedure that is proved and holds every way of going on: two generations, loops, time limits, readings. */
export const twoAxes = `---
procedure: 2-AXES
title: Test stand <two> & "more" -- ends in */ or --
revision: 1
equipment: { tag: R-2, name: Test stand, place: Sandholm workshop }
scope: Nothing but tests.
hardware:
  drive:   { ask: Which drive?, is: { belt: { name: Belt, tell: black }, chain: { name: Chain, tell: oily } } }
  cabinet: { ask: Which cabinet?, is: { old: { name: Old, tell: grey }, new: { name: New, tell: green } } }
energy:
  control: { kind: electrical, voltage: 24 V dc, conductors: [P, N], at: [Q1] }
  tension: { kind: spring, rate: 4 N/mm, deflection: 50 mm, unfed: tightened by hand, only: { drive: belt } }
  air:     { kind: gas, pressure: 6 bar, volume: 2 L, at: [V1], only: { cabinet: new } }
points:
  Q1: { is: switch, where: left, safe: down }
  V1: { is: valve, where: right, safe: across, only: { cabinet: new } }
roles:
  owner: { name: Owner }
---

# Start

::tool[Meter]{#meter measures=voltage rated="600 V" category=III}
::tool[Gauge]{#gauge measures=pressure range="0 to 10 bar"}

::look[The whole stand]{#first}

::identify{hardware=drive}

:::::ask[Is it loud?]
::::answer[Yes]
::measure[Noise]{#noise unit=dB max=80 from="the display"}
::::
::::answer[No]
::look[The belt]
::back{to=first}
::::
:::::

::identify{hardware=cabinet}

::identify{hardware=drive}

# Lock out

::notify[Everyone]

::shutdown

:::::within{time="60 s"}
::::only{drive=belt}
::look[The tensioner]
::::
::lock{at="Q1 V1"}
:::late
::stop[Too slow]
:::
:::::

::relieve{of="tension air" wait="20 s"}

::clear

::tryout

::prove{of=control with=meter}

::prove{of=tension by=trial}

::prove{of=air with=gauge}

# Work

::::by{hardware=cabinet}
:::when{is=old}
1. Reach in from the left.
:::
:::when{is=new}
1. Reach in from the right.
:::
::::

# Hand back

::inspect

::clear

::unlock{at="Q1 V1"}

::notify[Everyone]

::energize{at="Q1 V1"}

::::measure[Speed]{#speed unit=rpm min=10 max=20 from="the display"}
:::outside
::look[The display again]
:::
::::
`
