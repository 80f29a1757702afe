export interface DirectiveNote {
  /** What the one-line meaning leaves out; empty where nothing is. */
  readonly more: string
  /** As it may stand in a procedure; a branch is shown inside what holds it. */
  readonly example: string
}

const byGeneration = `::::by{hardware=cabinet}
:::when{is=old}
1. Undo the four screws of the cover.
:::
:::when{is=new}
1. Lift the cover off its hooks.
:::
::::`

const asked = `::::ask[Is the filter wet?]
:::answer[Yes]
1. Dry the filter housing.
:::
:::answer[No]
The fault is not here.
:::
::::`

const outOfLimits = `::::measure[Voltage at the panel]{unit=V min=380 max=420 from="the panel meter"}
Read it with the door shut.
:::outside
::stop[The supply is at fault]{tell="Shift leader"}
:::
::::`

const inTime = `::::within{time="60 s"}
:::operate
Start the pump.
:::
:::late
::stop[The pump does not start]{tell="Shift leader"}
:::
::::`

const remedies = `:::::remedies{retest=test relock=lock-out cured="Does the pump run quietly?"}
::::remedy[Change the seal]{chance=0.6 minutes=20 part=seal}
1. Change the seal.
::::
::::otherwise
::stop[The pump goes to the workshop]{tell="Shift leader"}
::::
:::::`

/** For each directive of the language: what a coordinator asks next, and a form that can be copied. */
export const directiveNotes: Readonly<Record<string, DirectiveNote>> = {
  tool: {
    more: 'Requirements are gathered in one step before any lock is hung.',
    example: '::tool[Two-pole voltage tester]{#tester-2 measures=voltage rated="1000 V" category=IV}'
  },
  part: { more: '', example: '::part[Shaft seal]{#seal-2 number="as stamped on the fitted one" quantity=1}' },
  wear: { more: 'Gloves against voltage need `class`.', example: '::wear[Insulating gloves]{#gloves-2 class=0}' },
  notify: {
    more: 'The label says who. Needed before the first lock and again before power comes back.',
    example: ':::notify[Control room]\nPump 2 will be locked for an hour.\n:::'
  },
  operate: {
    more: 'The machine runs, so it has to be inspected and clear.',
    example: ':::operate\nRaise the load until the pin holes stand free.\n:::'
  },
  look: { more: '', example: ':::look{near=mains}\nRead the fault on the display through the window.\n:::' },
  live: {
    more: 'Whatever is not under test has to be dead and proven, or named in `apart`. The sign-off stands before the test.',
    example:
      '::signoff[Test with power on is allowed]{#test-allowed role=owner}\n\n:::live{near="mains dc-link" apart=load why="the fault shows only under voltage" permit=test-allowed role=qualified wear=gloves}\nMeasure the three phases.\n:::'
  },
  shutdown: { more: '', example: ':::shutdown\nPress Stop and wait until the display says Stopped.\n:::' },
  identify: {
    more: 'The answers are those of the axis; how to tell them stands in the front matter.',
    example: ':::identify{hardware=cabinet}\nRead the plate inside the door.\n:::'
  },
  isolate: {
    more: 'Only where the front matter says `order: electrical`; a `lock` follows.',
    example: '::isolate{at=Q1}'
  },
  lock: {
    more: 'Each person who works hangs a lock of their own on each device.',
    example: ':::lock{at=Q1}\nTurn the handle to O.\n:::'
  },
  relieve: {
    more: 'The wait is the longest of the written one, the label and the computed worst case. With none of them, name the tool that it is done with.',
    example: ':::relieve{of=dc-link wait="20 min"}\nThe bleed resistor discharges it.\n:::'
  },
  restrain: {
    more: 'Pins, blocks and earths go on behind locks; an earth or a short only onto what was proven dead.',
    example: ':::restrain{with=pin}\nPush the pin in up to its collar.\n:::'
  },
  lamp: { more: '', example: ':::lamp{of=dc-link expect=dark}\nLook at the charge lamp.\n:::' },
  prove: {
    more: 'Electrical, capacitor and battery: the tester is proven on the `known` source, every pair of conductors and each to earth is tested, and the tester is proven again. Others: a reading below `safe-below`; `by=trial` is for gravity, spring and rotating alone and takes no `with`.',
    example:
      ':::prove{of="mains dc-link" with=tester known="the socket beside the door" role=qualified wear=gloves}\nTest at the terminals of the module.\n:::'
  },
  tryout: {
    more: 'After the last lock, with everybody clear, before work.',
    example: ':::tryout\n1. Press Start: nothing moves.\n2. Press Stop.\n:::'
  },
  signoff: {
    more: 'The label is the meaning that is signed.',
    example: '::signoff[Pump 2 is back in service]{#back role=owner}'
  },
  work: {
    more: 'An ordered list outside every directive is the same step. Every declared source has to be isolated, let out or held, and proven dead, but for those in `leaves` and `left-on`.',
    example:
      '::signoff[The load stays up on its pin]{#load-stays role=owner}\n\n:::work{leaves=load why="nobody goes below it" permit=load-stays with=tester}\n1. Change the module.\n:::'
  },
  measure: {
    more: 'Either `from` a place that needs no hands, or by hand `near` sources, never both; `with` goes with `near`. Out of limits it is measured again, or the `outside` branch is done. Nearness to live sources asks for what `live` asks for.',
    example: outOfLimits
  },
  wait: { more: 'The label says why.', example: '::wait[The platen is left alone]{for="10 min"}' },
  inspect: {
    more: 'Needed before a lock comes off; any later work undoes it.',
    example: ':::inspect\n- Tools counted and out\n- Cover on, all screws tight\n:::'
  },
  clear: { more: 'Any later step at the machine undoes it.', example: ':::clear\nNobody inside the fence.\n:::' },
  remove: {
    more: 'Undoes the inspection before it.',
    example: ':::remove{restraint=pin}\nHang the pin on its hook.\n:::'
  },
  unlock: {
    more: 'Inspected, clear, and no restraint left on what the device feeds.',
    example: '::unlock{at=Q1}'
  },
  energize: {
    more: 'The device has to be unlocked. People are told after the unlock; in the electrical order before it.',
    example: '::energize{at=Q1}'
  },
  stop: {
    more: 'The label says why. A run ends here.',
    example: '::stop[The winding is burnt: call the workshop]{tell="Shift leader"}'
  },
  finish: { more: 'The end of the file implies it.', example: '::finish' },
  by: {
    more: 'The generation is identified before, and the whens cover each value of the axis once.',
    example: byGeneration
  },
  only: {
    more: 'The attribute is the name of an axis, its value one or several generations. The others pass by.',
    example: ':::only{cabinet=new}\n1. Pull the plug of the fan.\n:::'
  },
  ask: { more: 'Two answers or more, all different.', example: asked },
  within: { more: 'Ends with `late`.', example: inTime },
  back: {
    more: 'The step has a name and lies on every way that leads here.',
    example:
      ':::look{#dial}\nRead the dial.\n:::\n\n::::ask[Is it steady?]\n:::answer[Yes]\nGo on.\n:::\n:::answer[No]\n::back{to=dial}\n:::\n::::'
  },
  repeat: { more: 'A copy of the section is done; it never repeats itself.', example: '::repeat{section=lock-out}' },
  remedies: {
    more: 'After each remedy the retest section is done and the question asked. Not cured: the relock section, then the next; after the last, `otherwise`.',
    example: remedies
  },
  when: { more: 'Inside `by`.', example: byGeneration },
  answer: { more: 'Inside `ask`. A branch that does not end goes on behind the `ask`.', example: asked },
  outside: { more: 'Inside `measure`.', example: outOfLimits },
  late: { more: 'The last thing inside `within`.', example: inTime },
  remedy: { more: 'Inside `remedies`.', example: remedies },
  otherwise: { more: 'The last thing inside `remedies`.', example: remedies },
  danger: {
    more: 'Belongs to the step that follows it, is shown before it and is acknowledged.',
    example:
      ':::danger[Falling load]\nThe platen weighs 1800 kg. Stay out from under it.\n:::\n\n:::restrain{with=pin}\nPush the pin in.\n:::'
  },
  warning: {
    more: 'Belongs to the step that follows it.',
    example: ':::warning[Oil under pressure]\nNever feel for a leak with a hand.\n:::\n\n1. Wipe the block dry.'
  },
  caution: {
    more: 'Belongs to the step that follows it.',
    example: ':::caution[Sharp edges]\nThe sheet metal cuts.\n:::\n\n1. Lift the cover off.'
  },
  notice: {
    more: 'Belongs to the step that follows it.',
    example: ':::notice\nThe board does not bear static charge.\n:::\n\n1. Pull the board.'
  }
}
