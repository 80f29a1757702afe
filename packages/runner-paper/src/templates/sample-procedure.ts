/** A short procedure of an invented machine, on which a site looks at its templates. */
export const sampleProcedure = `---
procedure: SAMPLE
title: Change the belt of sample fan 1
revision: 1
language: en
equipment: { tag: SF-1, name: Sample fan 1, place: Invented plant }
scope: A sample on which templates are looked at. Not for any real machine.
energy:
  mains: { kind: electrical, voltage: 400 V ac ± 10 %, phases: 3, category: III, at: [Q1] }
  impeller: { kind: rotating, fed-by: [mains], inertia: 0.4 kg m2, speed: 1450 rpm, coast-down: 40 s }
points:
  Q1: { is: switch-disconnector, where: beside the fan, safe: handle at O }
restraints:
  pin: { kind: pin, is: impeller pin, holds: [impeller] }
roles:
  qualified: { name: Qualified electrical person, holds: [electrical-lv], electrical: true }
---

This machine is invented. On real equipment the plant's rules, the local codes and qualified people come first.

# Prepare

::tool[Two-pole voltage tester]{#tester measures=voltage rated="1000 V" category=IV}
::wear[Insulating gloves with leather protectors]{#gloves class=00}

# Lock out

:::notify[Everybody who uses the fan]
Sample fan 1 will be shut down and locked.
:::

::shutdown[Press Stop]

:::lock{at=Q1}
Turn the handle to O.
:::

::relieve{of=impeller}

::restrain{with=pin}

::clear

:::tryout
1. Press Start: nothing moves.
2. Press Stop.
:::

:::danger[Live until proven dead]
Everything behind the cover counts as live until the tester has shown otherwise.
:::

:::prove{of=mains with=tester known="a socket that is live" role=qualified wear=gloves}
Test at the motor terminals.
:::

::prove{of=impeller by=trial}

# Change the belt

1. Take the old belt off and put the new one on.

# Hand back

::clear

::remove{restraint=pin}

::inspect

::clear

::unlock{at=Q1}

::notify[Everybody who uses the fan]

::energize{at=Q1}

:::operate
Press Start and let the fan run up.
:::

::signoff[Sample fan 1 is back in service]{role=qualified}
`
