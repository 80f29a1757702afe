import { inFrontMatter, told } from './fault-mend.js'

const mains = '  mains: { kind: electrical, voltage: 400 V ac, phases: 3, at: [Q1] }'
const energy = (line: string): string => `energy:\n${mains}\n  ${line}`

/** Faults of the declaration of the machine. */
export const frontMatterMends = {
  'missing-front-matter': told(
    'Begin the file with a line `---`, the declaration of the machine, and another line `---`.'
  ),
  'unclosed-front-matter': told('Close the declaration with a line `---`.'),
  'broken-yaml': inFrontMatter(
    'Mend the line; indent with spaces, and put quotes round a text with a colon in it.',
    'title: Pump 2: change the seal',
    'title: "Pump 2: change the seal"'
  ),
  'unknown-key': inFrontMatter(
    'Write the key as it is spelled, or take it out.',
    'titel: Change the seal',
    'title: Change the seal'
  ),
  'duplicate-key': inFrontMatter(
    'Take one of the two out.',
    'title: Change the seal\ntitle: Change the belt',
    'title: Change the seal'
  ),
  'bad-id': inFrontMatter(
    'Use letters, digits, `-`, `_` and `+` alone.',
    'roles: { plant owner: { name: Plant owner } }',
    'roles: { plant-owner: { name: Plant owner } }'
  ),
  'missing-key': inFrontMatter(
    'Add the key.',
    'equipment: { tag: P-2, name: Pump 2 }',
    'equipment: { tag: P-2, name: Pump 2, place: Sandholm waterworks }'
  ),
  'wrong-parameter': inFrontMatter(
    'Take it out, or correct the kind.',
    energy('air: { kind: gas, volume: 50 L, pressure: 6 bar, bleed: 18 kΩ, at: [Q1] }'),
    energy('air: { kind: gas, volume: 50 L, pressure: 6 bar, bleed-bore: 4 mm, at: [Q1] }')
  ),
  'missing-feed': inFrontMatter(
    'Name what cuts it off with `at`, what can charge it with `fed-by`, or say why nothing does with `unfed`.',
    energy('rotor: { kind: rotating, inertia: 2 kg m2, speed: 1480 rpm }'),
    energy('rotor: { kind: rotating, inertia: 2 kg m2, speed: 1480 rpm, fed-by: [mains] }')
  ),
  'contradicting-feed': inFrontMatter(
    'Take one of the two out.',
    energy('spring: { kind: spring, rate: 20 N/mm, deflection: 30 mm, at: [Q1], unfed: wound by hand }'),
    energy('spring: { kind: spring, rate: 20 N/mm, deflection: 30 mm, unfed: wound by hand }')
  ),
  'fed-by-ring': inFrontMatter(
    'Take out the feed that is not there, or declare what they share as one source.',
    energy('load: { kind: gravity, mass: 300 kg, height: 2 m, fed-by: [load] }'),
    energy('load: { kind: gravity, mass: 300 kg, height: 2 m, fed-by: [mains] }')
  ),
  'bad-waiver': inFrontMatter(
    'Take the waiver out and keep the obligation; few can be waived.',
    'waive: [{ obligation: work-proven, why: there is no tester, by: Works manager }]',
    'waive: [{ obligation: gathered-first, why: the crane is always there, by: Works manager }]'
  ),
  'template-not-filled': inFrontMatter(
    'Write the procedure for one machine, with its values.',
    'template: true',
    'template: false'
  )
} as const
