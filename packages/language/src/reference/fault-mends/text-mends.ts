import { amongSteps, told } from './fault-mend.js'

const lock = '::lock{at=Q1}'

/** Faults of the file as a whole, and of what Markdown would let vanish. */
export const textMends = {
  'file-too-large': told('Write one machine and one job a file, and leave out what no step needs.'),
  'line-too-long': told('Break the line into several.'),
  'too-deep': told('Put the inner branches under a heading of their own and call them with `::repeat{section=...}`.'),
  'costly-text': told('Write the passage as plain prose: fewer brackets, quotes and lists inside each other.'),
  'too-many-steps': told('Split the procedure: one machine and one job a file.'),
  'too-many-faults': told('Mend those that are listed, then check again.'),
  'not-utf-8': told('Save the file as UTF-8 and type the damaged words again.'),
  'control-character': told('Delete the hidden character at the place named and type the word again.'),
  'broken-directive': amongSteps(
    'Write the name right behind the colons, the label and the braces right behind the name, and nothing behind them.',
    '::wait[It cools] {for="5 min"}',
    '::wait[It cools]{for="5 min"}'
  ),
  'unclosed-fence': amongSteps(
    'Close the body with a line of as many colons.',
    ':::lock{at=Q1}\nTurn the handle to O.',
    ':::lock{at=Q1}\nTurn the handle to O.\n:::'
  ),
  'stray-fence': amongSteps(
    'Take the fence out, or open what it was to close.',
    'Turn the handle to O.\n\n:::',
    ':::lock{at=Q1}\nTurn the handle to O.\n:::'
  ),
  'short-fence': amongSteps(
    'Give the outer directive more colons than what it holds, where it opens and where it closes.',
    ':::only{cabinet=old}\n:::lock{at=Q1}\nTurn the lower handle.\n:::\n:::',
    '::::only{cabinet=old}\n:::lock{at=Q1}\nTurn the lower handle.\n:::\n::::'
  ),
  'indented-directive': amongSteps('Begin the line at the margin.', `    ${lock}`, lock),
  'directive-in-list': amongSteps('Take it out of the list, onto a line of its own.', `- ${lock}`, lock),
  'directive-in-quote': amongSteps('Take the `>` away.', `> ${lock}`, lock),
  'directive-in-table': amongSteps(
    'Take it out of the table, onto a line of its own.',
    `| first |\n| --- |\n| ${lock} |`,
    lock
  ),
  'directive-in-comment': amongSteps('Take it out of the comment, or delete it.', `<!--\n${lock}\n-->`, lock),
  'directive-in-code': amongSteps('Take the fence of the code away, or delete it.', `\`\`\`\n${lock}\n\`\`\``, lock),
  'unclosed-comment': amongSteps('Close the comment.', '<!-- ask the owner', '<!-- ask the owner -->'),
  'unclosed-code': amongSteps('Close the code with a line of as many backticks.', '```\nP4 = 12', '```\nP4 = 12\n```'),
  'numbered-prose': amongSteps(
    'Leave a blank line before the list and begin it with 1. Use hyphens where it is no work on the machine.',
    'Then the lid:\n2. Lift the lid off.',
    'Then the lid:\n\n1. Lift the lid off.'
  ),
  'hidden-work': amongSteps(
    'Write work as a numbered list at the margin, and what is no work with hyphens.',
    '> 1. Lift the lid off.',
    '1. Lift the lid off.'
  ),
  html: amongSteps('Say it in Markdown.', '<b>Lower</b> handle.', '**Lower** handle.'),
  'link-definition': amongSteps('Say where it is found.', '[plan]: plan.pdf', 'The plan hangs inside the door.'),
  'image-place': amongSteps(
    'Put the image into a paragraph of its own.',
    ':::look[The dial ![dial](dial.png)]\nRead it.\n:::',
    '![The dial](dial.png)\n\n:::look\nRead it.\n:::'
  ),
  'heading-in-container': amongSteps(
    'Put the heading before the directive.',
    ':::look\n## Panel\nRead it.\n:::',
    '## Panel\n\n:::look\nRead it.\n:::'
  ),
  'no-work': amongSteps(
    'Write hands-on work as a numbered list at the margin. A procedure that means to touch nothing stands as it is.',
    '- Pull the belt off by hand',
    '1. Pull the belt off by hand.'
  ),
  'written-step': amongSteps(
    'Write it as a numbered list or as the directive that it means.',
    'Step 1: open the guard and reach in.',
    '1. Open the guard and reach in.'
  ),
  'heading-without-space': amongSteps('Put a space behind the `#`.', '#Hand back', '# Hand back'),
  'empty-title': amongSteps('Write a title with letters in it.', '## ...', '## Clean the basket')
} as const
