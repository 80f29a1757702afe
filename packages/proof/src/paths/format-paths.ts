import { printable } from '../columns.js'
import { tellGeneration } from './generations.js'
import type { GenerationPaths, Paths } from './paths-of.js'
import type { Way, WayStep } from './way.js'

/** The paths as text for a terminal: counts, the shortest and the longest way, the runs to rehearse. */
export function formatPaths(paths: Paths): string {
  return [
    `${paths.procedure} revision ${paths.revision}`,
    ...(paths.open.length === 0
      ? []
      : [
          `Too many generations to tell all apart: every value of ${paths.open.join(', ')} counts as a way of its own.`
        ]),
    ...paths.generations.flatMap((one, index) => {
      // Counted through, so that a number names one run whatever the generation.
      const before = paths.generations.slice(0, index).reduce((sum, { rehearsal }) => sum + rehearsal.runs.length, 0)
      return ['', ...formatGeneration(one, before)]
    }),
    '',
    'A way passes no state twice: a loop is counted by the ways into it, not by how often it is gone round.',
    'Minutes are those that the procedure gives, plus its waits; a step that gives none counts as nothing.'
  ]
    .map((line) => `${printable(line)}\n`)
    .join('')
}

function formatGeneration({ generation, ways, rehearsal }: GenerationPaths, before: number): readonly string[] {
  const name = tellGeneration(generation)
  return [
    name === '' ? 'Every machine of this kind' : `On ${name}`,
    `  ways to the finish      ${ways.toFinish}`,
    `  ways to a stop          ${ways.toStop}`,
    ...(ways.toNowhere === 0n ? [] : [`  ways that lead nowhere  ${ways.toNowhere}`]),
    `  ways into a loop        ${ways.intoLoops}`,
    ...extreme('shortest way', ways.shortest),
    ...extreme('shortest to finish', ways.shortestToFinish),
    ...extreme('longest way', ways.longest),
    '',
    `  Runs to rehearse, so that each of the ${rehearsal.exits} exits is taken: ${rehearsal.fewest}`,
    ...(rehearsal.runs.length === 0 ? ['    too many to be listed'] : []),
    ...rehearsal.runs.flatMap((run, index) => [
      `    run ${before + index + 1}: ${timed(run)}; ${run.first} exits for the first time`,
      ...turnings(run).map((step) => `      ${told(step)}`)
    ]),
    ...(rehearsal.runs.length < 2
      ? []
      : [
          '  No run can take two of these exits, so fewer runs do not do:',
          ...rehearsal.apart.map((exit) => `      ${told(exit)}`)
        ])
  ]
}

function extreme(name: string, way: Way | null): readonly string[] {
  const last = way?.steps.at(-1)
  return way === null || last === undefined
    ? [`  ${name.padEnd(22)}  none`]
    : [`  ${name.padEnd(22)}  ${timed(way)}, ends at line ${last.line}: ${last.title}`]
}

function timed({ minutes, steps, untimed }: Way): string {
  const without = untimed === 0 ? '' : ` (${untimed} without a time)`
  return `${Number(minutes.toFixed(1))} min, ${steps.length} steps${without}`
}

/** The steps at which the run could have gone another way, and its end. */
function turnings({ steps }: Way): readonly WayStep[] {
  return steps.filter((step, index) => step.takes !== null || index === steps.length - 1)
}

/** Copies of one step share its line: the copy is named, so that they can be told apart. */
function told({ state, line, title, takes }: WayStep): string {
  const copy = state.includes('/') ? ` (copy ${state.slice(0, state.lastIndexOf('/'))})` : ''
  return `line ${line}  ${title}${takes === null ? '' : `: ${takes}`}${copy}`
}
