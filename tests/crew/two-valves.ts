import type { Machine } from '@lockwright/machine'
import { machineOf, verdictOf } from '../end-to-end/compile-text.js'

/**
 * Two valves, locked one after the other, with something to do between the two locks, so that a crew can be on one of
 * them alone.
 */
export function twoValves(): Machine {
  const verdict = verdictOf(text.replace('UNLOCK', unlock))
  if (verdict.kind !== 'proved') throw new Error(JSON.stringify(verdict))
  return verdict.machine
}

/**
 * The same with a time limit on the last unlocking, after which the work goes on, so that it is broken off with locks
 * already off. The proof refuses it, for good reason: it shows that `advance` holds without the proof, too.
 */
export function twoValvesInTime(): Machine {
  const inTime = `::::within{time="60 s"}\n\n${unlock}\n\n:::late\n\n::back{to=mend}\n\n:::\n\n::::`
  return machineOf(text.replace('UNLOCK', inTime))
}

const unlock = ':::unlock{at="V1 V2"}\nEach takes off their own.\n:::'

const text = `---
procedure: M4-SEAL
title: Change the seal of mixing tank 4
revision: 1
language: en
equipment: { tag: M-4, name: Mixing tank 4, place: Sandholm waterworks }
scope: The seal of the outlet.
no-start-control: The tank has no drive.
energy:
  inlet: { kind: liquid, pressure: 4 bar, at: [V1] }
  rinse: { kind: liquid, pressure: 3 bar, at: [V2] }
points:
  V1: { is: butterfly valve, where: inlet, safe: lever across the pipe }
  V2: { is: ball valve, where: rinsing line, safe: lever across the pipe }
roles: {}
---

# Seal of mixing tank 4

::tool[Padlocks]{#padlocks}
::tool[Drain hose]{#hose}
::tool[Pressure gauge]{#gauge measures=pressure range="0 to 10 bar"}

## Lock out

:::notify[Filter hall]
Tell the filter hall.
:::

:::shutdown
Stop the filling.
:::

:::lock{at=V1}
Across the pipe.
:::

:::relieve{of=inlet with=hose}
Drain it.
:::

:::lock{at=V2}
Across the pipe.
:::

:::relieve{of=rinse with=hose}
Drain it.
:::

:::prove{#proof of="inlet rinse" with=gauge}
Read the gauge.
:::

## Change the seal

:::work{#mend}
Change the seal.
:::

:::inspect
Tools out.
:::

:::clear
Everybody out of reach.
:::

UNLOCK

:::notify[Filter hall]
Tell them again.
:::

:::energize{at="V1 V2"}
Open the valves.
:::
`
