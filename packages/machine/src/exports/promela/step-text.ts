import type { Exit, State } from '../../state.js'
import { type Meaning, meaningOf } from './meaning.js'
import type { World } from './world.js'

type Lines = readonly string[]

/**
 * One state as a labelled stretch of the process: what it needs and does in one indivisible step, then every exit as
 * an option. A search thus stores one state for each pair of step and ledger, as they are before the step.
 */
export function stepText(world: World, state: State): { readonly lines: Lines; readonly meaning: Meaning } {
  const meaning = meaningOf(world, state)
  return {
    meaning,
    lines: [
      `${world.names.label(state.id)}:`,
      '\tatomic {',
      ...indented(
        [`printf("line ${state.span.line}  ${printable(title(state))}\\n");`, ...waysOut(world, state, meaning)],
        2
      ),
      '\t};'
    ]
  }
}

function title(state: State): string {
  return state.title.startsWith(state.kind) ? state.title : `${state.kind}: ${state.title}`
}

function waysOut(world: World, state: State, { acts, statements }: Meaning): Lines {
  const leave = (exit: Exit): string => `goto ${world.names.label(exit.to)}`
  switch (state.kind) {
    case 'stop':
    case 'finish':
      // The end of every way: it is looked at, and stays as it is.
      return [...inOneStep(statements), `goto ${world.names.label(state.id)}`]
    case 'branch': {
      const axis = world.names.axis(state.axis)
      const options = state.exits.flatMap((exit): Lines[] =>
        exit.on === 'value'
          ? [[`${axis} == unknown || ${axis} == ${world.names.value(state.axis, exit.value)} -> ${leave(exit)}`]]
          : []
      )
      return [...inOneStep(statements), ...choice(options)]
    }
    case 'identify':
      return identify(world, state, leave)
    default: {
      const lates = state.exits.filter(({ on }) => on === 'late')
      const onward = state.exits.find(({ on }) => on === 'done' || on === 'inside')
      const done: Lines = [...inOneStep(statements), ...choice(state.exits.map((exit) => [`true -> ${leave(exit)}`]))]
      const passes = acts !== 'true' && onward !== undefined
      if (!passes && lates.length === 0) return done
      // Late with the step not done; late with it done is among its ways out.
      return choice([
        [`${acts} ->`, ...indented(done, 1)],
        ...lates.map((exit): Lines => [`${acts} -> ${leave(exit)}`]),
        ...(passes ? [[`else -> ${leave(onward)}`]] : [])
      ])
    }
  }
}

/** Every answer while the axis is unknown; where it is known, passed by. */
function identify(world: World, state: Extract<State, { kind: 'identify' }>, leave: (exit: Exit) => string): Lines {
  const axis = world.names.axis(state.axis)
  const lates = state.exits.filter(({ on }) => on === 'late')
  const answers = state.exits.filter((exit) => exit.on === 'identified')
  const [first] = answers
  return choice([
    ...answers.map(
      (exit): Lines => [
        `${axis} == unknown ->`,
        ...indented(
          [
            ...inOneStep([`${axis} = ${world.names.value(state.axis, exit.value)};`, 'settle();']),
            ...choice([exit, ...lates].map((way) => [`true -> ${leave(way)}`]))
          ],
          1
        )
      ]
    ),
    ...lates.map((exit): Lines => [`${axis} == unknown -> ${leave(exit)}`]),
    ...(first === undefined ? [] : [[`else -> ${leave(first)}`]])
  ])
}

function inOneStep(statements: Lines): Lines {
  return statements.length === 0 ? [] : ['d_step {', ...indented(statements, 1), '};']
}

/** The options of an `if`; one that is always open needs none. */
function choice(options: readonly Lines[]): Lines {
  const [only] = options
  if (options.length === 1 && only?.length === 1 && only[0]?.startsWith('true -> ') === true) {
    return [only[0].slice('true -> '.length)]
  }
  return ['if', ...options.flatMap(([first, ...rest]) => [`:: ${first}`, ...rest]), 'fi']
}

function indented(lines: Lines, by: number): Lines {
  return lines.map((line) => `${'\t'.repeat(by)}${line}`)
}

/** Text that is safe inside a string of Promela and of the C that is made from it. */
function printable(text: string): string {
  const plain = text
    .replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Cs}]+/gu, ' ')
    .replaceAll('"', "'")
    .replaceAll('\\', '/')
    .replaceAll('%', '%%')
  return [...plain].slice(0, 120).join('')
}
