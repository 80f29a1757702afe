/**
 * Every fault that the language knows, and why it is dangerous. Whatever stands here refuses the file, but for the
 * warnings: Markdown refuses nothing, and a step that vanishes still looks right on the page.
 */
export const faultDangers = {
  // The file as a whole.
  'file-too-large': 'A file that cannot be read whole cannot be checked whole.',
  'line-too-long': 'A line that nobody can read is not checked by the people who answer for it.',
  'too-deep': 'Nobody can follow a procedure that is nested so deeply, and it could stall the check.',
  'costly-text': 'Text of this make stalls the Markdown parser, so the procedure would never be checked.',
  'too-many-steps': 'A procedure of this size cannot be checked in full, and what is not checked is not known.',
  'too-many-faults': 'Faults that are not listed are still there.',
  'not-utf-8': 'Damaged characters can change a value or a name, and nobody would see what it was.',
  'control-character': 'Hidden characters can make the text look different from what is checked and recorded.',
  // What Markdown would let vanish.
  'broken-directive': 'Markdown reads the line as plain prose, so the step would be gone while it still looks right.',
  'unclosed-fence': 'Everything that follows would be swallowed by the directive that was left open.',
  'stray-fence': 'A fence that closes nothing shows that a step ends elsewhere than it seems to.',
  'short-fence': 'The outer directive would end at the inner fence, and the steps behind it would leave their group.',
  'indented-directive': 'Markdown reads a line that is four spaces deep as code or prose, so the step would be gone.',
  'directive-in-list': 'A directive inside a list is not where steps are looked for, so it would be gone.',
  'directive-in-quote': 'A directive inside a quote is not where steps are looked for, so it would be gone.',
  'directive-in-table': 'A directive inside a table is plain text to Markdown, so the step would be gone.',
  'directive-in-comment': 'A directive inside a comment is not shown to anybody, so the step would be gone.',
  'directive-in-code': 'A directive inside code is printed and not done, so the step would be gone.',
  'unclosed-comment': 'Everything behind a comment that is never closed would vanish from the procedure.',
  'unclosed-code': 'Everything behind code that is never closed would be printed as text and not done.',
  'numbered-prose': 'Markdown reads the line as prose, so a numbered action would not count as a step.',
  'hidden-work': 'A numbered list hidden here looks like work on the machine and would not be checked as such.',
  html: 'HTML is not shown on paper or in the terminal, so what it says would vanish.',
  'link-definition': 'A link definition is not shown anywhere, so what it says would vanish.',
  'image-place': 'An image cannot be shown here, so what it shows would vanish.',
  'heading-in-container': 'A heading inside a directive opens no section, so the steps below it would stand elsewhere.',
  'empty-title': 'A section without a title cannot be named, repeated or found.',
  // Directives.
  'unknown-directive': 'What is not known is not checked, so the step would be gone.',
  'wrong-case': 'Names are told apart by their case, so this one names nothing.',
  'wrong-form': 'In this form the directive does not mean what it seems to.',
  'misplaced-directive': 'Here the directive belongs to nothing, so it would not be done.',
  'nested-step': 'A step inside another step has no place in the order, so its lock or test would not be checked.',
  'nested-notice': 'A notice in the middle of a step is not acknowledged before the step begins.',
  'notice-without-step': 'A safety message with no step behind it is shown to nobody.',
  'prose-between-branches': 'Text between branches belongs to none of them, so nobody would be shown it.',
  'missing-branch': 'Without this branch nobody is told what to do when things go otherwise.',
  'repeated-branch': 'Two branches for one case contradict each other.',
  'missing-label': 'Without it nobody can tell what is meant here.',
  'unexpected-label': 'The label would not be shown, so what it says would vanish.',
  'unknown-attribute': 'What is not known is not checked, so what it says would not be done.',
  'duplicate-attribute': 'Only one of the two would count, and nobody can tell which was meant.',
  'empty-attribute': 'An attribute without a value names nothing, so nothing would be checked.',
  'missing-attribute': 'Without it the step does not say what it acts on, so it cannot be checked.',
  'contradicting-attributes': 'The two contradict each other, and nobody can tell which one holds.',
  'bad-value': 'A value that cannot be read cannot be checked.',
  'not-relievable': 'A step that lets out what cannot be let out would make people believe it is gone.',
  'isolate-in-general-order':
    'Under the general order a device is locked as it is switched off; an unlocked one can be switched on.',
  'circular-repeat': 'A section that repeats itself never comes to an end.',
  // Names.
  'bad-id': 'A name that is not spelled as names are cannot be told apart from others.',
  'unknown-name': 'Nothing bears the name, so nothing would be locked, proved or checked for it.',
  'wrong-sort-of-name': 'The name belongs to something else, so what was meant would be left out.',
  'duplicate-name': 'Two things with one name cannot be told apart, so one of them would go unchecked.',
  'bad-reference': 'A reference that is not read as one prints the wrong words.',
  // Front matter.
  'missing-front-matter': 'Without it no energy source is declared, so nothing could be checked.',
  'unclosed-front-matter': 'The declaration of the machine would be read as prose, so nothing could be checked.',
  'broken-yaml': 'A declaration that cannot be read may leave an energy source out.',
  'unknown-key': 'What is not known is not read, so what it declares would be left out.',
  'duplicate-key': 'Only one of the two would count, and nobody can tell which was meant.',
  'missing-key': 'Without it the machine is not declared in full, so the check would have a hole.',
  'wrong-parameter': 'A quantity that does not belong to this kind of source is not used in any check.',
  'missing-feed': 'Without its feed nobody knows what has to be locked to keep this source dead.',
  'contradicting-feed': 'A source is either fed or not, and a wrong answer leaves it live behind the locks.',
  'fed-by-ring': 'Each source of the ring waits for the other to be dead, so none of them ever counts as dead.',
  'bad-waiver': 'An obligation that protects people cannot be waived.',
  // Warnings: the file may be meant so.
  'no-work':
    'Work that is written as information is checked for nothing: no lock, no release and no test has to come before it.',
  'written-step':
    'A step that is written as prose is checked for nothing and asked of nobody, while it still looks like a step.',
  'heading-without-space':
    'Markdown reads the line as prose, so the section would be missing and its steps would stand under the heading before.',
  'template-not-filled': 'A template has no values of its own, so nothing in it can be checked.'
} as const satisfies Record<string, string>

export type FaultId = keyof typeof faultDangers
