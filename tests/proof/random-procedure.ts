import fc from 'fast-check'
import { randomSketch, type Sketch } from './random-sketch.js'

/**
 * Small procedures of every shape, as Markdown: a front matter of few sources, and a body that either follows a
 * lawful order with a few faults planted in it or is thrown together. Each is well formed; most are refused.
 */
export interface RandomProcedure {
  readonly text: string
}

/** True most of the time, so that a step which needs many things has them now and then. */
const often = fc.integer({ min: 0, max: 4 }).map((chance) => chance > 0)

/** Some of the names, at least one, as the value of an attribute. */
function some(names: readonly string[]): fc.Arbitrary<string> {
  return fc.subarray([...names], { minLength: 1 }).map((chosen) => `"${chosen.join(' ')}"`)
}

/** One step of the given sketch, as its lines; `depth` bounds nesting, `id` makes names that differ. */
function stepOf(sketch: Sketch, depth: number): fc.Arbitrary<string> {
  const steps: fc.WeightedArbitrary<string>[] = [
    { weight: 3, arbitrary: fc.constant('::notify[Everyone]') },
    { weight: 2, arbitrary: fc.constant('::shutdown') },
    { weight: 1, arbitrary: fc.constant('::operate') },
    { weight: 4, arbitrary: some(sketch.points).map((at) => `::lock{at=${at}}`) },
    { weight: 2, arbitrary: some(sketch.points).map((at) => `::unlock{at=${at}}`) },
    { weight: 2, arbitrary: some(sketch.points).map((at) => `::energize{at=${at}}`) },
    { weight: 2, arbitrary: fc.constant('::clear') },
    { weight: 2, arbitrary: fc.constant('::tryout') },
    { weight: 2, arbitrary: fc.constant('::inspect') },
    { weight: 4, arbitrary: some(sketch.sources).map((of) => `::prove{of=${of} with=tester known="the socket"}`) },
    { weight: 2, arbitrary: fc.constant('1. Reach in.\n') },
    {
      weight: 1,
      arbitrary: some(sketch.sources).map(
        (leaves) => `:::work{leaves=${leaves} why=needed permit=allow}\n1. Reach in.\n:::`
      )
    },
    { weight: 1, arbitrary: liveOf(sketch) },
    { weight: 1, arbitrary: fc.constant('::stop[Enough]') },
    { weight: 1, arbitrary: fc.constant('::finish') },
    { weight: 1, arbitrary: fc.constant('::wait[Let it cool]{for="5 s"}') },
    { weight: 1, arbitrary: some(sketch.sources).map((near) => `::look{near=${near}}`) }
  ]
  if (sketch.electrical) steps.push({ weight: 3, arbitrary: some(sketch.points).map((at) => `::isolate{at=${at}}`) })
  if (sketch.relievable.length > 0)
    steps.push({ weight: 3, arbitrary: some(sketch.relievable).map((of) => `::relieve{of=${of}}`) })
  if (sketch.restraints.length > 0) {
    steps.push({ weight: 2, arbitrary: some(sketch.restraints).map((names) => `::restrain{with=${names}}`) })
    steps.push({ weight: 2, arbitrary: some(sketch.restraints).map((names) => `::remove{restraint=${names}}`) })
  }
  if (sketch.axis) steps.push({ weight: 2, arbitrary: fc.constant('::identify{hardware=model}') })
  if (depth > 0) steps.push({ weight: 5, arbitrary: choiceOf(sketch, depth) })
  return fc.oneof(...steps)
}

function liveOf(sketch: Sketch): fc.Arbitrary<string> {
  return fc
    .record({
      near: some(sketch.sources),
      apart: fc.option(some(sketch.sources), { nil: null }),
      why: often,
      permit: often,
      role: fc.constantFrom('', ' role=expert', ' role=expert', ' role=expert', ' role=owner'),
      gloves: fc.constantFrom('', ' wear=gloves', ' wear=gloves', ' wear=gloves'),
      measure: fc.boolean()
    })
    .map(({ near, apart, why, permit, role, gloves, measure }) => {
      const rest = `near=${near}${apart === null ? '' : ` apart=${apart}`}${why ? ' why=needed' : ''}${permit ? ' permit=allow' : ''}${role}${gloves}`
      return measure ? `::measure[Reading]{unit=V max=10 ${rest}}` : `::live{${rest}}`
    })
}

/** Fences grow with depth, so that an outer container is longer than what it holds. */
function choiceOf(sketch: Sketch, depth: number): fc.Arbitrary<string> {
  const outer = ':'.repeat(3 + depth * 2)
  const inner = ':'.repeat(2 + depth * 2)
  const body = bodyOf(sketch, depth - 1, 2)
  const block = (name: string, attributes: string, inside: string): string =>
    `${inner}${name}${attributes}\n${inside}\n${inner}`
  const choices: fc.Arbitrary<string>[] = [
    fc
      .tuple(body, body, fc.constantFrom('', '', '\n::back{to=first}'))
      .map(
        ([yes, no, back]) =>
          `${outer}ask[What is seen?]\n${block('answer', '[This]', yes)}\n${block('answer', '[That]', no + back)}\n${outer}`
      ),
    fc
      .tuple(body, body)
      .map(([inside, late]) => `${outer}within{time="60 s"}\n${inside}\n${block('late', '', late)}\n${outer}`),
    body.map(
      (outside) => `${outer}measure[Reading]{unit=V max=10 from=panel}\n${block('outside', '', outside)}\n${outer}`
    )
  ]
  if (sketch.axis) {
    choices.push(
      fc
        .tuple(body, body)
        .map(
          ([inside, late]) =>
            `${outer}within{time="60 s"}\n::identify{hardware=model}\n\n${inside}\n${block('late', '', late)}\n${outer}`
        ),
      fc
        .tuple(body, body)
        .map(
          ([one, two]) =>
            `${outer}by{hardware=model}\n${block('when', '{is=m1}', one)}\n${block('when', '{is=m2}', two)}\n${outer}`
        ),
      fc
        .tuple(fc.constantFrom('m1', 'm2'), body)
        .map(([value, inside]) => `${outer}only{model=${value}}\n${inside}\n${outer}`)
    )
  }
  return fc.oneof(...choices)
}

function bodyOf(sketch: Sketch, depth: number, maxLength: number): fc.Arbitrary<string> {
  return fc.array(stepOf(sketch, depth), { minLength: 1, maxLength }).map((steps) => steps.join('\n\n'))
}

/** The steps of a lawful lockout of everything, each as its lines. */
function lawful(sketch: Sketch): string[] {
  const all = (names: readonly string[]): string => `"${names.join(' ')}"`
  const points = all(sketch.points)
  const relieve = sketch.relievable.length === 0 ? [] : [`::relieve{of=${all(sketch.relievable)}}`]
  const restrain = sketch.restraints.length === 0 ? [] : [`::restrain{with=${all(sketch.restraints)}}`]
  const remove = sketch.restraints.length === 0 ? [] : [`::remove{restraint=${all(sketch.restraints)}}`]
  const prove = `::prove{of=${all(sketch.sources)} with=tester known="the socket"}`
  const cut = sketch.electrical
    ? [`::isolate{at=${points}}`, ...relieve, `::lock{at=${points}}`]
    : [`::lock{at=${points}}`, ...relieve]
  const back = sketch.electrical
    ? ['::inspect', '::clear', '::notify[Everyone]', `::unlock{at=${points}}`, '::clear', `::energize{at=${points}}`]
    : ['::inspect', '::clear', `::unlock{at=${points}}`, '::notify[Everyone]', `::energize{at=${points}}`]
  return [
    ...(sketch.axis ? ['::identify{hardware=model}'] : []),
    '::notify[Everyone]',
    '::shutdown',
    ...cut,
    '::clear',
    '::tryout',
    prove,
    ...restrain,
    prove,
    '::signoff[Go on]{#allow role=expert}',
    '1. Reach in.\n',
    '::clear',
    ...remove,
    ...back
  ]
}

/** The lawful steps with up to three of them dropped, moved or followed by a random one. */
function mangled(sketch: Sketch): fc.Arbitrary<string> {
  const steps = lawful(sketch)
  const change = fc.record({
    at: fc.nat(steps.length - 1),
    to: fc.nat(steps.length - 1),
    how: fc.constantFrom('drop', 'move', 'insert', 'insert'),
    step: stepOf(sketch, 1)
  })
  const test = liveOf(sketch)
  return fc.tuple(fc.array(change, { maxLength: 3 }), fc.option(test)).map(([changes, live]) => {
    const list = steps.flatMap((step) => (live !== null && step.includes('#allow') ? [step, live] : [step]))
    for (const { at, to, how, step } of changes) {
      const index = at % list.length
      // The sign-off stays: other steps name it.
      if (how !== 'insert' && list[index]?.includes('#allow')) continue
      const taken = how === 'insert' ? [step] : list.splice(index, 1)
      if (how !== 'drop') list.splice(to % (list.length + 1), 0, ...taken)
    }
    return list.join('\n\n')
  })
}

/** Some steps, the sign-off that others may name, and some more, with an axis identified or not. */
function thrownTogether(sketch: Sketch): fc.Arbitrary<string> {
  return fc
    .tuple(bodyOf(sketch, 1, 4), bodyOf(sketch, 2, 5))
    .map(([before, after]) => `${before}\n\n::signoff[Go on]{#allow role=expert}\n\n${after}`)
}

export const randomProcedure: fc.Arbitrary<RandomProcedure> = randomSketch.chain((sketch) =>
  fc
    .record({ body: fc.oneof(mangled(sketch), thrownTogether(sketch)), again: fc.integer({ min: 0, max: 4 }) })
    .map(({ body, again }) => {
      const more = again === 0 ? '\n\n# Once more\n\n::repeat{section=body}' : ''
      return { text: `${sketch.head}\n::look[The whole machine]{#first}\n\n# Body\n\n${body}${more}\n` }
    })
)

/** As above, with two remedies at the end: a section to test by and one to lock by, which are copied for each. */
export const randomRepair: fc.Arbitrary<RandomProcedure> = randomSketch.chain((sketch) => {
  const short = bodyOf(sketch, 0, 3)
  return fc
    .record({ body: mangled(sketch), test: short, lock: short, first: short, second: short, otherwise: short })
    .map(({ body, test, lock, first, second, otherwise }) => {
      const parts = [
        sketch.head,
        '::look[The whole machine]{#first}',
        `# Test\n\n${test}`,
        `# Lock\n\n${lock}`,
        `# Body\n\n${body}`,
        `# Repair\n\n:::::remedies{retest=test relock=lock cured="Does it run?"}`,
        `::::remedy[One]\n${first}\n::::`,
        `::::remedy[Two]\n${second}\n::::`,
        `::::otherwise\n${otherwise}\n::::`,
        ':::::\n'
      ]
      return { text: parts.join('\n\n') }
    })
})
