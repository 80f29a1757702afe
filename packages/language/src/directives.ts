import {
  branch,
  choice,
  type DirectiveSpecification,
  notice,
  optional,
  type Rest,
  required,
  requirement,
  step
} from './directive-specification.js'

const leafOnly: Rest = { container: false, leaf: true }
const near = optional('near', 'sources', 'what is under test')
const apart = optional('apart', 'sources', 'what else is on but out of reach')
const why = optional('why', 'text', 'why it cannot be done dead')
const permit = optional('permit', 'sign-offs', 'the sign-off that allows it')
const category = optional('category', { words: ['II', 'III', 'IV'] }, 'overvoltage category of the instrument')

/**
 * Every directive of the language, once: the parser, the near-name suggestions and the docs draw from here.
 * `only` also takes the name of one axis as an attribute, with values of that axis.
 */
export const DIRECTIVES: readonly DirectiveSpecification[] = [
  requirement('tool', 'a tool; an instrument if it measures something', [
    optional('measures', 'text', 'what the instrument measures, such as voltage or pressure'),
    optional('rated', 'quantity', 'the highest value that it is built for'),
    category,
    optional('range', 'range', 'what it can show, such as `0 to 10 bar`'),
    optional('size', 'text', 'its size'),
    optional('torque', 'text', 'the torque that it is set to'),
    optional('needs-calibration', 'flag', 'it must be in calibration')
  ]),
  requirement('part', 'a spare part', [
    optional('number', 'text', 'the number to order it by'),
    optional('quantity', 'text', 'how many are needed')
  ]),
  requirement('wear', 'protective equipment', [
    optional('class', { words: ['00', '0', '1', '2', '3', '4'] }, 'class of insulating gloves')
  ]),

  step('notify', 'affected people are told', []),
  step('operate', 'done with the normal controls, closed up and clear', []),
  step('look', 'look, listen or read an indicator; hands off, may be live', [near]),
  step('live', 'hands-on test with power on', [{ ...near, required: true }, apart, why, permit]),
  step('shutdown', 'normal stop', []),
  step('identify', 'find out the generation of the equipment', [required('hardware', 'axis', 'the axis to find out')]),
  step('isolate', 'put the device in its safe position, no lock yet', [required('at', 'points', 'the devices')]),
  step('lock', 'put the device in its safe position and hang lock and tag', [required('at', 'points', 'the devices')]),
  step('relieve', 'let stored energy out', [
    required('of', 'sources', 'the sources to relieve'),
    optional('wait', 'time', 'a longer wait than the computed one'),
    optional('with', 'equipment', 'the tool that it is done with')
  ]),
  step('restrain', 'put a restraint on', [required('with', 'restraints', 'the restraints')]),
  step('lamp', 'look at an indicator; never a proof by itself', [
    required('of', 'sources', 'the sources that it shows'),
    required('expect', { words: ['dark', 'lit'] }, 'what it should show')
  ]),
  step('prove', 'verify zero energy', [
    required('of', 'sources', 'the sources to prove'),
    optional('with', 'equipment', 'the tester or gauge'),
    optional('known', 'text', 'the known source that the tester is proven on'),
    optional('by', { words: ['instrument', 'trial'] }, 'with an instrument, or by trying to move it')
  ]),
  step('tryout', 'try the start control, then return it to off', []),
  step('signoff', 'someone with that role signs for the meaning given', [required('role', 'role', 'who signs')], {
    label: 'required'
  }),
  step('work', 'hands-on work on a dead machine', [
    optional('leaves', 'sources', 'sources that stay on'),
    { ...why, meaning: 'why they stay on' },
    permit,
    optional('with', 'equipment', 'the tools for it')
  ]),
  step(
    'measure',
    'a reading with limits',
    [
      required('unit', 'text', 'the unit of the reading'),
      optional('min', 'number', 'the lowest value that is well'),
      optional('max', 'number', 'the highest value that is well'),
      optional('from', 'text', 'where it is read without hands'),
      { ...near, meaning: 'the sources that it is taken near, by hand' },
      apart,
      optional('with', 'equipment', 'the instrument'),
      why,
      permit
    ],
    { label: 'required', holds: ['outside'] }
  ),
  step('wait', 'a timed wait', [required('for', 'time', 'how long')], leafOnly),
  step('inspect', 'tools and jumpers out, guards and covers back, parts sound', []),
  step('clear', 'everybody out of reach of the machine', []),
  step('remove', 'take a restraint off', [required('restraint', 'restraints', 'the restraints')]),
  step('unlock', 'each lock off by whoever hung it', [required('at', 'points', 'the devices')]),
  step('energize', 'devices back on', [required('at', 'points', 'the devices')]),
  step(
    'stop',
    'stop work here: locks stay, the equipment stays out of service',
    [optional('tell', 'text', 'who has to be told')],
    leafOnly
  ),
  step('finish', 'returned to service', [], { ...leafOnly, label: 'none' }),

  choice('by', 'a branch by hardware generation', [required('hardware', 'axis', 'the axis')], { holds: ['when'] }),
  choice('only', 'extra steps for one generation', [], {}),
  choice('ask', 'a branch by what is seen', [optional('role', 'role', 'who answers')], {
    label: 'required',
    holds: ['answer']
  }),
  choice('within', 'the steps must be done in that time', [required('time', 'time', 'how long')], {}),
  choice('back', 'go back to an earlier step', [required('to', 'step', 'the step')], leafOnly),
  choice('repeat', 'do a whole section again here', [required('section', 'section', 'the section')], leafOnly),
  choice(
    'remedies',
    'remedies tried in order until one cures the fault',
    [
      required('retest', 'section', 'the section done after each remedy'),
      required('relock', 'section', 'the section done before the next remedy'),
      required('cured', 'text', 'the question whose answer says whether the fault is cured'),
      optional('order', { words: ['fixed'] }, 'no advice on another order')
    ],
    { holds: ['remedy', 'otherwise'] }
  ),

  branch('when', 'the steps for some generations', [required('is', 'axis-values', 'the generations')]),
  branch('answer', 'the steps for one answer', [], { label: 'required' }),
  branch('outside', 'what to do when the reading stays out of limits', []),
  branch('late', 'what to do when the time is over', []),
  branch(
    'remedy',
    'one remedy',
    [
      optional('chance', 'number', 'how often it cures the fault, from 0 to 1'),
      optional('minutes', 'number', 'how long it takes'),
      optional('part', 'parts', 'the spare parts that it uses')
    ],
    { label: 'required' }
  ),
  branch('otherwise', 'what to do when no remedy cured the fault', []),

  notice('danger', 'a hazard that will kill or maim'),
  notice('warning', 'a hazard that could kill or maim'),
  notice('caution', 'a hazard that could injure'),
  notice('notice', 'a hazard to equipment alone')
]

const byName: ReadonlyMap<string, DirectiveSpecification> = new Map(DIRECTIVES.map((entry) => [entry.name, entry]))

export function findDirective(name: string): DirectiveSpecification | undefined {
  return byName.get(name)
}

export function directiveNames(): Iterable<string> {
  return byName.keys()
}

/** Whether a directive may stand directly in the body of another. */
export function canHold(outer: string, inner: string): boolean {
  const holder = byName.get(outer)
  const held = byName.get(inner)
  if (holder === undefined || held === undefined) return holder === undefined
  if (held.group === 'branch') {
    return Array.isArray(holder.holds) ? holder.holds.includes(inner) : outer === 'within' && inner === 'late'
  }
  return holder.holds === 'steps' && held.group !== 'requirement'
}
