/** A small file that single lines are tried in: its front matter by key, and what stands before them in the body. */
const head: Readonly<Record<string, string>> = {
  procedure: 'procedure: R-1',
  title: 'title: Host of examples',
  revision: 'revision: 1',
  equipment: 'equipment: { tag: P-2, name: Pump 2, place: Sandholm waterworks }',
  scope: 'scope: Nothing but the example.',
  hardware: `hardware:
  cabinet:
    ask: Which series?
    is:
      old: { name: Old, tell: Grey door }
      new: { name: New, tell: Blue door }`,
  energy: `energy:
  mains: { kind: electrical, voltage: 400 V ac, phases: 3, at: [Q1] }
  dc-link: { kind: capacitor, capacitance: 4 mF, voltage: 560 V dc, conductors: [DC+, DC-], fed-by: [mains] }
  load: { kind: gravity, mass: 300 kg, height: 2 m, fed-by: [mains] }
  rotor: { kind: rotating, inertia: 1.2 kg m2, speed: 1480 rpm, fed-by: [mains] }
  heater: { kind: electrical, voltage: 230 V ac, phases: 1, at: [Q1] }`,
  points: 'points: { Q1: { is: switch, where: left door, safe: handle at O } }',
  roles: `roles:
  qualified: { name: Qualified electrical person, holds: [electrical-lv], electrical: true }
  owner: { name: Equipment owner }`,
  restraints: 'restraints: { pin: { kind: pin, is: locking pin, holds: [load] } }'
}

const requirements = `::tool[Voltage tester]{#tester measures=voltage rated="1000 V" category=IV}
::part[Seal]{#seal}
::wear[Gloves]{#gloves class=0}
`

/** With these steps; they may name sections `lock-out` and `test`, which hold prose alone. */
export function withSteps(steps: string, entry = '', instead: readonly string[] = []): string {
  const kept = Object.entries(head).flatMap(([key, text]) => (instead.includes(key) ? [] : [text]))
  const front = [...kept, ...(entry === '' ? [] : [entry])].join('\n')
  return `---\n${front}\n---\n\n# Prepare\n\n${requirements}\n# Lock out\n\nProse.\n\n# Test\n\nProse.\n\n# Steps\n\n${steps}\n`
}

/** With this entry in place of the one with its key; what would name sources that are gone goes with it. */
export function withEntry(entry: string, key: string): string {
  return withSteps('Prose.', entry, key === 'energy' ? ['energy', 'restraints'] : [key])
}
