import { digestOf } from '../../digest.js'
import type { Machine } from '../../machine.js'
import type { State } from '../../state.js'
import { all, any, grouped, not } from './expression.js'
import { type LedgerObligation, obligationMacros } from './obligations.js'
import { permitsAsked } from './spelling.js'
import { stepText } from './step-text.js'
import { derivedMacros, existsOn, settling, type World, worldOf } from './world.js'

/**
 * The machine and its ledger of energies as a model for SPIN 6: every exit an option, each obligation about the ledger
 * an assertion that can be checked alone. The ledger's rules are written out from the declarations and from the kinds
 * of the steps, not taken from the needs and effects in the machine, so that SPIN checks the compiler as well.
 * The same machine gives the same text.
 */
export function promelaOf(machine: Machine): string {
  const world = worldOf(machine)
  const asked = new Set<LedgerObligation>()
  const steps = machine.states.flatMap((state, index) => {
    const { lines, meaning } = stepText(world, state)
    for (const obligation of meaning.asks) asked.add(obligation)
    return [...heading(machine, state, machine.states[index - 1]), ...lines]
  })
  const first = machine.states[0]?.id === machine.start ? [] : [`\tgoto ${world.names.label(machine.start)};`]
  return [
    ...preamble(machine),
    '',
    '/* Obligations: each is an assertion of its own name, false for no longer than it takes to assert it. */',
    ...obligationMacros(asked),
    '',
    ...ledger(world),
    '',
    ...presence(world),
    '/* What follows from the ledger for each source. */',
    ...machine.sources.flatMap((source) => derivedMacros(world, source)),
    '',
    ...history(world),
    '',
    '/* After every step: what may be fed again holds energy again; what is not still is not proven. */',
    'inline settle() {',
    ...settling(world).map((line) => `\t${line}`),
    '}',
    '',
    'active proctype procedure() {',
    ...first,
    ...steps,
    '\tskip',
    '}',
    ''
  ].join('\n')
}

function preamble(machine: Machine): readonly string[] {
  const lines = [
    `${machine.procedure}, revision ${machine.revision}: ${machine.title}`,
    '',
    'The procedure and its ledger of energies, for SPIN 6 (written for 6.5.2).',
    'Written by `lockwright build --as promela`. Change the procedure and build again, never this file.',
    `Digest of the machine (SHA-256 over its RFC 8785 form): ${digestOf(machine)}`,
    '',
    'All obligations; each one that fails is named, and the search goes on:',
    '  spin -o1 -o2 -a model.pml && gcc -O2 -DSAFETY -DNOREDUCE -o pan pan.c && ./pan -c0 -m1000000',
    'One alone, with the shortest way to the step that breaks it:',
    '  spin -DCHECK=WORK_ISOLATED -a model.pml && gcc -O2 -DSAFETY -DBFS -o pan pan.c && ./pan && spin -t model.pml',
    'relock-after-test told apart from work-isolated (more states, because the way here counts): add -DHISTORY to spin.',
    '',
    'What is declared and needs no search (ratings, waits, coverage) is not in this model. What SPIN finds is about',
    "the text of the procedure and what it declares. The plant's rules, the local codes and qualified people come first."
  ]
  return ['/*', ...lines.map((line) => ` * ${comment(line)}`.trimEnd()), ' */']
}

/** The ledger before the first step. */
function ledger({ machine, names }: World): readonly string[] {
  return [
    '/* The ledger. */',
    'mtype:position = { on, off, locked };',
    ...machine.points.map(
      ({ id, normal, is, where }) =>
        `mtype:position ${names.point(id)} = ${normal};\t/* ${comment(`${id}: ${is}, ${where}`)} */`
    ),
    ...machine.restraints.map(({ id, is }) => `bool ${names.restraint(id)} = false;\t/* ${comment(`${id}: ${is}`)} */`),
    ...machine.sources.flatMap(({ id, kind, store }) => [
      ...(store === 'can-be-let-out'
        ? [`bool ${names.source('held', id)} = true;\t/* energy may be stored in ${comment(`${id}, ${kind}`)} */`]
        : []),
      `bool ${names.source('proven', id)} = false;`,
      `bool ${names.source('touched', id)} = false;`
    ]),
    ...(machine.axes.length === 0 ? [] : ['#define unknown 0']),
    ...machine.axes.flatMap(({ id, values }) => [
      ...values.map((value, index) => `#define ${names.value(id, value.id)} ${index + 1}`),
      `byte ${names.axis(id)} = unknown;`
    ]),
    'bool is_stopped = false;',
    'bool is_told = false;',
    machine.noStartControl === null
      ? 'bool is_tried = false;'
      : `bool is_tried = true;\t/* no start control: ${comment(machine.noStartControl)} */`,
    'bool is_inspected = true;',
    'bool is_clear = true;',
    ...permitsAsked(machine).map((permit) => `bool ${names.permit(permit)} = false;`)
  ]
}

function presence(world: World): readonly string[] {
  const { machine, names } = world
  const limited = [...machine.points, ...machine.restraints, ...machine.sources].filter(({ only }) => only.length > 0)
  if (limited.length === 0) return []
  return [
    '/* What exists on some generations alone; while the generation is unknown, it counts. */',
    ...limited.map(({ id, only }) => `#define ${names.present(id)} ${grouped(existsOn(world, only))}`),
    ''
  ]
}

/** Which points were locked before: only then can work after a test be told from work that was never locked out. */
function history(world: World): readonly string[] {
  const { machine, names } = world
  return [
    '#ifdef HISTORY',
    ...machine.points.map(({ id }) => `bool ${names.wasLocked(id)} = false;`),
    '#define remember(was_locked, present) was_locked = (was_locked || present)',
    ...machine.sources.map(({ id }) => {
      const open = world
        .pointsFeeding(id)
        .map((point) => all([names.wasLocked(point), not(`${names.point(point)} == locked`)]))
      return `#define ${names.source('reopened', id)} ${grouped(any(open))}`
    }),
    '#else',
    '#define remember(was_locked, present) skip',
    ...machine.sources.map(({ id }) => `#define ${names.source('reopened', id)} false`),
    '#endif'
  ]
}

function heading(machine: Machine, { section }: State, before: State | undefined): readonly string[] {
  if (section === null || section === before?.section) return []
  const title = machine.sections.find(({ id }) => id === section)?.title ?? section
  return ['', `\t/* ${comment(title)} */`]
}

/** One line that cannot end the comment in which it stands. */
function comment(text: string): string {
  return text
    .replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Cs}]+/gu, ' ')
    .replaceAll('*/', '* /')
    .replaceAll('/*', '/ *')
    .replace(/\\+$/, '')
}
