import { amongSteps } from './fault-mend.js'

const lock = '::lock{at=Q1}'
const branches = (between: string): string =>
  `::::by{hardware=cabinet}\n:::when{is=old}\n1. Turn the key.\n:::\n${between}:::when{is=new}\n1. Pull the plug.\n:::\n::::`
const outside = ':::outside\n::stop[The supply is at fault]\n:::\n'
const measure = (branch: string): string =>
  `::::measure[Voltage]{unit=V max=420 from="the panel"}\nRead it.\n${branch}::::`

/** Faults of single directives and their attributes. */
export const directiveMends = {
  'unknown-directive': amongSteps(
    'Write the name of a directive; the finding names the nearest.',
    '::lok{at=Q1}',
    lock
  ),
  'wrong-case': amongSteps('Write it in small letters.', '::Lock{at=Q1}', lock),
  'wrong-form': amongSteps(
    'Use the form that the directive has: `explain` of its name shows which.',
    ':::tool[Spanner]{#spanner}\n:::',
    '::tool[Spanner]{#spanner}'
  ),
  'misplaced-directive': amongSteps(
    'Put it inside what holds it.',
    ':::answer[Yes]\nGo on.\n:::',
    '::::ask[Is it cold?]\n:::answer[Yes]\nGo on.\n:::\n:::answer[No]\n::stop[Let it cool]\n:::\n::::'
  ),
  'nested-step': amongSteps(
    'Close the outer step first and write the inner one behind it.',
    '::::lock{at=Q1}\n:::look\nRead the dial.\n:::\n::::',
    `${lock}\n\n:::look\nRead the dial.\n:::`
  ),
  'nested-notice': amongSteps(
    'Put the notice before the step.',
    '::::look\n:::danger\nThe lid is heavy.\n:::\n::::',
    ':::danger\nThe lid is heavy.\n:::\n\n:::look\nRead the dial.\n:::'
  ),
  'notice-without-step': amongSteps(
    'Put it before the step that it warns of.',
    ':::danger\nThe lid is heavy.\n:::',
    ':::danger\nThe lid is heavy.\n:::\n\n1. Lift the lid off.'
  ),
  'prose-between-branches': amongSteps(
    'Move it before the choice, or into the branch that it belongs to.',
    branches('Or else:\n'),
    branches('')
  ),
  'missing-branch': amongSteps(
    'Add the branch.',
    ':::within{time="60 s"}\n1. Close the lid.\n:::',
    '::::within{time="60 s"}\n1. Close the lid.\n:::late\n::stop[The glue has set]\n:::\n::::'
  ),
  'repeated-branch': amongSteps('Join the two into one.', measure(outside + outside), measure(outside)),
  'missing-label': amongSteps('Say it in brackets behind the name.', '::tool{#spanner}', '::tool[Spanner]{#spanner}'),
  'unexpected-label': amongSteps('Take the label out, or say it in prose.', '::finish[Done]', '::finish'),
  'unknown-attribute': amongSteps('Write the attribute that the directive has.', '::lock{ad=Q1}', lock),
  'duplicate-attribute': amongSteps('Take one out; several names stand in one value.', '::lock{at=Q1 at=Q1}', lock),
  'empty-attribute': amongSteps(
    'Write the value, or take the attribute out.',
    '::wait[It cools]{for=""}',
    '::wait[It cools]{for="5 min"}'
  ),
  'missing-attribute': amongSteps('Add the attribute.', '::lock', lock),
  'contradicting-attributes': amongSteps(
    'Take one of the two out.',
    '::prove{of=dc-link with=tester by=trial}',
    '::prove{of=dc-link with=tester known="the socket beside the door"}'
  ),
  'bad-value': amongSteps(
    'Write the value in the form that the finding asks for; a quantity has a decimal point and a unit, and quotes where it has a space.',
    '::wait[It cools]{for=5}',
    '::wait[It cools]{for="5 min"}'
  ),
  'not-relievable': amongSteps('Lock what feeds it, restrain it, or cover it.', '::relieve{of=mains}', lock),
  'isolate-in-general-order': amongSteps(
    'Write `lock`, or `order: electrical` in the front matter where that law applies.',
    '::isolate{at=Q1}',
    lock
  ),
  'circular-repeat': amongSteps(
    'Repeat a section from outside it; go back inside it with `::back{to=...}`.',
    '## Rinse\n\n1. Rinse it.\n\n::repeat{section=rinse}',
    '## Rinse\n\n1. Rinse it.\n\n## Rinse again\n\n::repeat{section=rinse}'
  ),
  'unknown-name': amongSteps('Write a name that is declared, or declare this one.', '::lock{at=Q7}', lock),
  'wrong-sort-of-name': amongSteps('Name what the attribute asks for.', '::lock{at=mains}', lock),
  'duplicate-name': amongSteps(
    'Give one of the two another name.',
    '::tool[Spanner]{#tester}',
    '::tool[Spanner]{#spanner}'
  ),
  'bad-reference': amongSteps('Write the name in brackets.', 'Open :ref{Q1} first.', 'Open :ref[Q1] first.')
} as const
