/** A lawful procedure with as many steps of work as asked for, each with a list and a reading: a long sheet for the bench. */
export function longProcedure(steps) {
  const work = Array.from({ length: steps }, (_, index) =>
    [
      `:::notice[Part ${index + 1}]`,
      `Keep the parts of drawer ${index + 1} in their order.`,
      ':::',
      '',
      ':::work',
      `1. Undo the screws of cover ${index + 1} and lay it on the bench.`,
      `2. Wipe the contacts of drawer ${index + 1} and look for burnt places.`,
      '3. Put the cover back and tighten the screws crosswise.',
      ':::',
      '',
      ...(index % 10 === 9
        ? ['', `## Row ${(index + 1) / 10 + 1}`, '', 'The next row is taken from the left.', '']
        : [])
    ].join('\n')
  )
  return `---
procedure: S7-DRAWERS
title: Clean the drawers of switchboard 7
revision: 1
language: en
equipment: { tag: S-7, name: Switchboard 7, place: Sandholm pumping station }
scope: Cleaning the drawers with the board dead.
energy:
  mains: { kind: electrical, voltage: 400 V ac ± 10 %, phases: 3, at: [Q1] }
points:
  Q1: { is: switch-disconnector, where: incoming field, safe: handle at O }
roles:
  qualified: { name: Qualified electrical person, holds: [electrical-lv], electrical: true }
---

# Prepare

::tool[Two-pole voltage tester]{#tester measures=voltage rated="1000 V" category=IV}
::wear[Insulating gloves]{#gloves class=0}
::tool[Padlock and tag for each person]{#padlock}

::notify[Everyone on the board]

::shutdown

# Lock out

::lock{at=Q1}

::clear

::tryout

::prove{of=mains with=tester known="the socket by the door" role=qualified wear=gloves}

# Clean

${work.join('\n')}

# Hand back

::inspect

::clear

::unlock{at=Q1}

::notify[Everyone on the board]

::energize{at=Q1}
`
}
